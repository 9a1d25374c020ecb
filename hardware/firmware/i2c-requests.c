#include "i2c-requests.h"

#include <util/delay.h>

#include "clock.h"
#include "firmata.h"
#include "pins.h"
#include "twi.h"
#include "uart.h"

#define READ_MOST 32
#define WRITE_MOST 32
#define CONTINUOUS_MOST 8

#define MODE_BITS 0x18
#define MODE_WRITE 0x00
#define MODE_READ_ONCE 0x08
#define MODE_READ_ON 0x10
#define MODE_STOP 0x18
#define REPEATED_START 0x40
#define TEN_BIT 0x20

struct read {
  uint8_t address;
  uint8_t has_register;
  uint8_t register_number;
  uint8_t count;
  uint8_t repeated_start;
};

static struct read continuous[CONTINUOUS_MOST];
static uint8_t continuous_count;
static uint8_t delay_us;
static uint8_t open;

void i2c_open(uint8_t fast) {
  pins_give_i2c();
  twi_begin(fast);
  open = 1;
}

void i2c_config(const uint8_t *bytes, uint8_t count) {
  /* The delay between setting a register and reading; more than 255 us make no sense for a chip. */
  uint16_t us = count >= 2 ? bytes[0] | (uint16_t)bytes[1] << 7 : 0;
  delay_us = us > 255 ? 255 : us;
  if (!open) i2c_open(0);
}

static void tell_trouble(uint8_t met) {
  if (met & TWI_HELD) {
    firmata_string(PSTR("I2C: bus held"));
  } else if (met & TWI_TIME_LIMIT) {
    firmata_string(PSTR("I2C: time limit"));
  } else {
    firmata_string(PSTR("I2C: no answer"));
  }
}

static uint8_t run_read(const struct read *wanted, uint8_t *into) {
  struct transfer transfer = {.address = wanted->address,
                              .out = &wanted->register_number,
                              .out_count = wanted->has_register,
                              .in = into,
                              .in_count = wanted->count,
                              .stop_between = !wanted->repeated_start};
  if (delay_us && wanted->has_register) {
    transfer.in_count = 0;
    uint8_t met = twi_run(&transfer) & ~TWI_FREED;
    if (met) return met;
    for (uint8_t us = delay_us; us; us--) _delay_us(1);
    transfer.out_count = 0;
    transfer.in_count = wanted->count;
  }
  return twi_run(&transfer) & ~TWI_FREED;
}

static void answer(const struct read *wanted, uint8_t wait_for_room) {
  uint8_t bytes[READ_MOST];
  uint8_t met = run_read(wanted, bytes);
  uint8_t count = met ? 0 : wanted->count;
  if (!wait_for_room && uart_room() < 2 * READ_MOST + 40) return;
  if (met) tell_trouble(met);
  uart_put(0xF0);
  uart_put(0x77);
  put_pair(wanted->address);
  put_pair(wanted->has_register ? wanted->register_number : 0);
  for (uint8_t i = 0; i < count; i++) put_pair(bytes[i]);
  uart_put(0xF7);
}

static void write(uint8_t address, uint8_t *bytes, uint8_t count) {
  uint8_t out = count / 2;
  if (out > WRITE_MOST) {
    firmata_string(PSTR("I2C: too many bytes"));
    return;
  }
  for (uint8_t i = 0; i < out; i++) bytes[i] = bytes[2 * i] | bytes[2 * i + 1] << 7;
  struct transfer transfer = {.address = address, .out = bytes, .out_count = out};
  uint8_t met = twi_run(&transfer) & ~TWI_FREED;
  if (met) tell_trouble(met);
}

static uint8_t parse_read(struct read *wanted, const uint8_t *bytes, uint8_t count) {
  uint16_t number;
  wanted->has_register = count >= 4;
  wanted->register_number = count >= 4 ? bytes[0] | bytes[1] << 7 : 0;
  if (count >= 4) {
    number = bytes[2] | (uint16_t)bytes[3] << 7;
  } else if (count >= 2) {
    number = bytes[0] | (uint16_t)bytes[1] << 7;
  } else {
    return 0;
  }
  wanted->count = number;
  return number >= 1 && number <= READ_MOST;
}

static void stop(uint8_t address) {
  uint8_t kept = 0;
  for (uint8_t i = 0; i < continuous_count; i++) {
    if (continuous[i].address != address) continuous[kept++] = continuous[i];
  }
  continuous_count = kept;
}

void i2c_request(uint8_t *bytes, uint8_t count) {
  if (count < 2) return;
  if (!open) {
    firmata_string(PSTR("I2C: not configured"));
    return;
  }
  struct read wanted = {.address = bytes[0], .repeated_start = bytes[1] & REPEATED_START};
  uint8_t mode = bytes[1] & MODE_BITS;
  if (bytes[1] & TEN_BIT) {
    firmata_string(PSTR("I2C: 10-bit address"));
    return;
  }
  if (mode == MODE_STOP) {
    stop(wanted.address);
  } else if (mode == MODE_WRITE) {
    write(wanted.address, bytes + 2, count - 2);
  } else if (!parse_read(&wanted, bytes + 2, count - 2)) {
    firmata_string(PSTR("I2C: count"));
  } else if (mode == MODE_READ_ONCE) {
    answer(&wanted, 1);
  } else if (continuous_count == CONTINUOUS_MOST) {
    firmata_string(PSTR("I2C: too many reads"));
  } else {
    continuous[continuous_count++] = wanted;
    beat_want(1);
  }
}

uint8_t i2c_continues(void) { return continuous_count; }

void i2c_continue(void) {
  for (uint8_t i = 0; i < continuous_count; i++) answer(&continuous[i], 0);
}

void i2c_reset(void) {
  continuous_count = 0;
  delay_us = 0;
  if (open) twi_end();
  open = 0;
}
