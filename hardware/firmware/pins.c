#include "pins.h"

#include <avr/io.h>

#include "clock.h"
#include "i2c-requests.h"
#include "uart.h"

#define INTERVAL_MS 19
#define PORT_COUNT 3

static uint8_t modes[PIN_COUNT];
static uint8_t reported_ports;
static uint8_t reported_analog;
static uint8_t told[PORT_COUNT];
static uint16_t interval_ms = INTERVAL_MS;
static uint16_t passed_ms;

uint8_t pin_mode_bits(uint8_t pin, uint8_t mode) {
  if (pin < 2 || pin >= PIN_COUNT) return 0;
  switch (mode) {
    case MODE_INPUT:
    case MODE_OUTPUT:
    case MODE_PULLUP:
      return 1;
    case MODE_ANALOG:
      return pin >= FIRST_ANALOG_PIN ? 10 : 0;
    case MODE_I2C:
      return pin >= SDA_PIN ? 1 : 0;
    default:
      return 0;
  }
}

uint8_t pin_mode(uint8_t pin) { return modes[pin]; }

static volatile uint8_t *port_of(uint8_t pin) {
  return pin < 8 ? &PORTD : pin < FIRST_ANALOG_PIN ? &PORTB : &PORTC;
}

static uint8_t mask_of(uint8_t pin) {
  return 1 << (pin < 8 ? pin : pin < FIRST_ANALOG_PIN ? pin - 8 : pin - FIRST_ANALOG_PIN);
}

/* On this chip the direction register stands one below the port, the input register two. */
#define DIRECTION(port) (*((port)-1))
#define LEVELS(port) (*((port)-2))

uint8_t pin_state(uint8_t pin) {
  if (modes[pin] == MODE_PULLUP) return 1;
  return modes[pin] == MODE_OUTPUT && (*port_of(pin) & mask_of(pin)) ? 1 : 0;
}

void pin_set_mode(uint8_t pin, uint8_t mode) {
  if (!pin_mode_bits(pin, mode) || mode == MODE_I2C || modes[pin] == MODE_I2C) return;
  volatile uint8_t *port = port_of(pin);
  uint8_t mask = mask_of(pin);
  if (mode == MODE_OUTPUT) {
    *port &= ~mask;
    DIRECTION(port) |= mask;
  } else {
    DIRECTION(port) &= ~mask;
    if (mode == MODE_PULLUP) {
      *port |= mask;
    } else {
      *port &= ~mask;
    }
  }
  modes[pin] = mode;
}

void pin_write(uint8_t pin, uint8_t high) {
  if (pin >= PIN_COUNT || modes[pin] != MODE_OUTPUT) return;
  if (high) {
    *port_of(pin) |= mask_of(pin);
  } else {
    *port_of(pin) &= ~mask_of(pin);
  }
}

void port_write(uint8_t port, uint8_t bits) {
  if (port >= PORT_COUNT) return;
  for (uint8_t i = 0; i < 8; i++) pin_write(port * 8 + i, bits & (1 << i));
}

static uint8_t port_levels(uint8_t port) {
  uint8_t levels = 0;
  for (uint8_t i = 0; i < 8; i++) {
    uint8_t pin = port * 8 + i;
    if (pin < 2 || pin >= PIN_COUNT) continue;
    if (modes[pin] != MODE_INPUT && modes[pin] != MODE_PULLUP) continue;
    if (LEVELS(port_of(pin)) & mask_of(pin)) levels |= 1 << i;
  }
  return levels;
}

static void tell_port(uint8_t port, uint8_t levels) {
  told[port] = levels;
  uart_put(0x90 | port);
  uart_put(levels & 0x7F);
  uart_put(levels >> 7);
}

static void want_beat(void) { beat_want(reported_ports || reported_analog || i2c_continues()); }

void report_digital(uint8_t port, uint8_t wanted) {
  if (port >= PORT_COUNT) return;
  if (wanted) {
    reported_ports |= 1 << port;
    tell_port(port, port_levels(port));
  } else {
    reported_ports &= ~(1 << port);
  }
  want_beat();
}

void report_analog(uint8_t channel, uint8_t wanted) {
  if (channel >= ANALOG_COUNT) return;
  if (wanted && modes[FIRST_ANALOG_PIN + channel] != MODE_I2C) {
    pin_set_mode(FIRST_ANALOG_PIN + channel, MODE_ANALOG);
    reported_analog |= 1 << channel;
  } else {
    reported_analog &= ~(1 << channel);
  }
  want_beat();
}

void pins_set_interval(uint16_t ms) { interval_ms = ms ? ms : 1; }

void pins_give_i2c(void) {
  report_analog(SDA_PIN - FIRST_ANALOG_PIN, 0);
  report_analog(SCL_PIN - FIRST_ANALOG_PIN, 0);
  modes[SDA_PIN] = MODE_I2C;
  modes[SCL_PIN] = MODE_I2C;
}

void pins_reset(void) {
  for (uint8_t pin = 2; pin < PIN_COUNT; pin++) {
    modes[pin] = MODE_INPUT;
    pin_set_mode(pin, pin < FIRST_ANALOG_PIN ? MODE_INPUT : MODE_ANALOG);
  }
  reported_ports = 0;
  reported_analog = 0;
  interval_ms = INTERVAL_MS;
  want_beat();
}

EMPTY_INTERRUPT(ADC_vect)

static uint16_t analog_read(uint8_t channel) {
  ADMUX = _BV(REFS0) | channel; /* against the supply */
  ADCSRA = _BV(ADEN) | _BV(ADSC) | _BV(ADIE) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  while (ADCSRA & _BV(ADSC)) REST_UNLESS(!(ADCSRA & _BV(ADSC)));
  return ADC;
}

static void report_changes(void) {
  for (uint8_t port = 0; port < PORT_COUNT; port++) {
    if (!(reported_ports & (1 << port))) continue;
    uint8_t levels = port_levels(port);
    if (levels != told[port] && uart_room() >= 3) tell_port(port, levels);
  }
}

static void report_values(void) {
  for (uint8_t channel = 0; channel < ANALOG_COUNT; channel++) {
    if (!(reported_analog & (1 << channel))) continue;
    uint16_t value = analog_read(channel);
    if (uart_room() < 3) continue;
    uart_put(0xE0 | channel);
    uart_put(value & 0x7F);
    uart_put(value >> 7);
  }
}

void pins_report(void) {
  uint8_t ms = beat_take();
  if (!ms) return;
  report_changes();
  passed_ms += ms;
  if (passed_ms < interval_ms) return;
  passed_ms -= interval_ms;
  if (passed_ms >= interval_ms) passed_ms = 0; /* it took longer than its interval */
  report_values();
  i2c_continue();
  want_beat();
}
