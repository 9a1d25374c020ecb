#include "pack.h"

#include <util/crc16.h>

#include "uart.h"

static uint16_t check;
static uint8_t kept;  /* bits not yet sent, at the low end */
static uint8_t place; /* weight of the next bit after them; a multiplication shifts faster here */

uint8_t pack_line_bytes(uint8_t body_bytes) {
  return (uint8_t)((body_bytes * 8 + 6) / 7) + 4;
}

void pack_begin(uint8_t sub) {
  check = CHECK_START;
  kept = 0;
  place = 1;
  uart_put(0xF0);
  uart_put(SCAN_MESSAGE);
  uart_put(sub);
}

static void pack_bits(uint8_t byte) {
  uint16_t row = (uint16_t)byte * place;
  uart_put((kept | (uint8_t)row) & 0x7F);
  kept = row >> 7;
  place <<= 1;
  if (place == 0x80) {
    uart_put(kept);
    kept = 0;
    place = 1;
  }
}

void pack_byte(uint8_t byte) {
  check = _crc_xmodem_update(check, byte);
  pack_bits(byte);
}

void pack_word(uint16_t word) {
  pack_byte(word);
  pack_byte(word >> 8);
}

void pack_long(uint32_t number) {
  pack_word(number);
  pack_word(number >> 16);
}

void pack_end(void) {
  uint16_t sum = check;
  pack_bits(sum);
  pack_bits(sum >> 8);
  if (place != 1) uart_put(kept);
  uart_put(0xF7);
}

uint16_t check_over(uint16_t sum, const uint8_t *bytes, uint8_t count) {
  while (count--) sum = _crc_xmodem_update(sum, *bytes++);
  return sum;
}

uint8_t unpack(uint8_t *bytes, uint8_t count) {
  uint8_t written = 0, bits = 0;
  uint16_t row = 0;
  for (uint8_t i = 0; i < count; i++) {
    row |= (uint16_t)bytes[i] << bits;
    bits += 7;
    if (bits >= 8) {
      bytes[written++] = row;
      row >>= 8;
      bits -= 8;
    }
  }
  if (written < 2) return 0xFF;
  written -= 2;
  uint16_t told = bytes[written] | (uint16_t)bytes[written + 1] << 8;
  return check_over(CHECK_START, bytes, written) == told ? written : 0xFF;
}
