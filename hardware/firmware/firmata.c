#include "firmata.h"

#include "i2c-requests.h"
#include "pack.h"
#include "pins.h"
#include "scan.h"
#include "uart.h"

#define DIGITAL_PORT 0x90
#define REPORT_ANALOG 0xC0
#define REPORT_DIGITAL 0xD0
#define ANALOG_VALUE 0xE0
#define SYSEX 0xF0
#define PIN_MODE 0xF4
#define PIN_VALUE 0xF5
#define SYSEX_END 0xF7
#define VERSION 0xF9
#define SYSTEM_RESET 0xFF

#define MAPPING_QUERY 0x69
#define MAPPING_ANSWER 0x6A
#define CAPABILITY_QUERY 0x6B
#define CAPABILITY_ANSWER 0x6C
#define PIN_STATE_QUERY 0x6D
#define PIN_STATE_ANSWER 0x6E
#define STRING 0x71
#define I2C_REQUEST 0x76
#define I2C_CONFIG 0x78
#define FIRMWARE 0x79
#define SAMPLING_INTERVAL 0x7A

static const char firmware_name[] PROGMEM = "heelwright";

static uint8_t message[MESSAGE_MOST];
static uint8_t message_count;
static uint8_t command; /* 0: none open */
static uint8_t too_long;

void put_pair(uint16_t value) {
  uart_put(value & 0x7F);
  uart_put((value >> 7) & 0x7F);
}

static void put_text(const char *text) {
  uint8_t character;
  while ((character = pgm_read_byte(text++))) put_pair(character);
}

void firmata_string(const char *text) {
  uart_put(SYSEX);
  uart_put(STRING);
  put_text(text);
  uart_put(SYSEX_END);
}

static void tell_version(void) {
  uart_put(VERSION);
  uart_put(2);
  uart_put(6);
}

static void tell_firmware(void) {
  uart_put(SYSEX);
  uart_put(FIRMWARE);
  uart_put(1);
  uart_put(0);
  put_text(firmware_name);
  uart_put(SYSEX_END);
}

void firmata_introduce(void) {
  tell_version();
  tell_firmware();
}

static void tell_capabilities(void) {
  uart_put(SYSEX);
  uart_put(CAPABILITY_ANSWER);
  for (uint8_t pin = 0; pin < PIN_COUNT; pin++) {
    for (uint8_t mode = 0; mode <= MODE_PULLUP; mode++) {
      uint8_t bits = pin_mode_bits(pin, mode);
      if (!bits) continue;
      uart_put(mode);
      uart_put(bits);
    }
    uart_put(0x7F);
  }
  uart_put(SYSEX_END);
}

static void tell_mapping(void) {
  uart_put(SYSEX);
  uart_put(MAPPING_ANSWER);
  for (uint8_t pin = 0; pin < PIN_COUNT; pin++) {
    uart_put(pin < FIRST_ANALOG_PIN ? 0x7F : pin - FIRST_ANALOG_PIN);
  }
  uart_put(SYSEX_END);
}

static void tell_pin_state(uint8_t pin) {
  if (pin >= PIN_COUNT) return;
  uart_put(SYSEX);
  uart_put(PIN_STATE_ANSWER);
  uart_put(pin);
  uart_put(pin_mode(pin));
  uart_put(pin_state(pin));
  uart_put(SYSEX_END);
}

static void reset_all(void) {
  scan_clear();
  i2c_reset();
  pins_reset();
}

static void sysex(void) {
  if (message_count == 0) return;
  uint8_t kind = message[0];
  uint8_t *rest = message + 1;
  uint8_t count = message_count - 1;
  switch (kind) {
    case SCAN_MESSAGE:
      scan_hear(rest, count);
      break;
    case I2C_REQUEST:
      i2c_request(rest, count);
      break;
    case I2C_CONFIG:
      i2c_config(rest, count);
      break;
    case FIRMWARE:
      tell_firmware();
      break;
    case CAPABILITY_QUERY:
      tell_capabilities();
      break;
    case MAPPING_QUERY:
      tell_mapping();
      break;
    case PIN_STATE_QUERY:
      if (count) tell_pin_state(rest[0]);
      break;
    case SAMPLING_INTERVAL:
      if (count >= 2) pins_set_interval(rest[0] | (uint16_t)rest[1] << 7);
      break;
  }
}

/* Data bytes a message needs before it can be obeyed; 0xFF: not one of ours. */
static uint8_t bytes_wanted(uint8_t open) {
  if (open < SYSEX) {
    switch (open & 0xF0) {
      case DIGITAL_PORT:
      case ANALOG_VALUE:
        return 2;
      case REPORT_ANALOG:
      case REPORT_DIGITAL:
        return 1;
      default:
        return 0xFF;
    }
  }
  return open == PIN_MODE || open == PIN_VALUE ? 2 : 0xFF;
}

static void obey(void) {
  uint8_t low = command & 0x0F;
  if (command == PIN_MODE) {
    pin_set_mode(message[0], message[1]);
  } else if (command == PIN_VALUE) {
    pin_write(message[0], message[1]);
  } else if ((command & 0xF0) == DIGITAL_PORT) {
    port_write(low, message[0] | message[1] << 7);
  } else if ((command & 0xF0) == REPORT_ANALOG) {
    report_analog(low, message[0]);
  } else if ((command & 0xF0) == REPORT_DIGITAL) {
    report_digital(low, message[0]);
  }
  /* An analog value would be PWM, which is not offered. */
}

static void open_message(uint8_t byte) {
  message_count = 0;
  too_long = 0;
  command = 0;
  if (byte == VERSION) {
    tell_version();
  } else if (byte == SYSTEM_RESET) {
    reset_all();
  } else if (byte == SYSEX || bytes_wanted(byte) != 0xFF) {
    command = byte;
  }
}

void firmata_hear(uint8_t byte) {
  if (byte & 0x80) {
    if (byte == SYSEX_END && command == SYSEX && !too_long) sysex();
    open_message(byte);
    return;
  }
  if (!command) return;
  if (message_count == MESSAGE_MOST) {
    too_long = 1;
    return;
  }
  message[message_count++] = byte;
  if (command != SYSEX && message_count == bytes_wanted(command)) {
    obey();
    command = 0;
  }
}
