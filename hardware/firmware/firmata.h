/* Firmata messages: the parser, and the small answers. */
#ifndef FIRMATA_H
#define FIRMATA_H

#include <avr/pgmspace.h>
#include <stdint.h>

#define MESSAGE_MOST 160

/* One byte from the host. Whatever comes, it is heard: what is no message is passed over. */
void firmata_hear(uint8_t byte);
/* Version and firmware name, as at every start. */
void firmata_introduce(void);

/* A text for people, from program memory; waits for room. */
void firmata_string(const char *text);
/* Two 7-bit bytes, least first. */
void put_pair(uint16_t value);

#endif
