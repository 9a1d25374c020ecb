/* 8-bit bodies in 7-bit messages, with their check. README.md, "Bytes in messages". */
#ifndef PACK_H
#define PACK_H

#include <stdint.h>

#define SCAN_MESSAGE 0x0A

/* Bytes on the line of a scan message with a body of this many bytes, its check included. */
uint8_t pack_line_bytes(uint8_t body_bytes);
void pack_begin(uint8_t sub);
void pack_byte(uint8_t byte);
void pack_word(uint16_t word);
void pack_long(uint32_t number);
void pack_end(void);

/* Unpacks in place; the body's length without its check, or 0xFF when the check is wrong. */
uint8_t unpack(uint8_t *bytes, uint8_t count);

uint16_t check_over(uint16_t check, const uint8_t *bytes, uint8_t count);
#define CHECK_START 0xFFFF

#endif
