/* The I2C bus. Every transfer ends within its time limit, whatever hangs on the bus. */
#ifndef TWI_H
#define TWI_H

#include <stdint.h>

/* What a transfer met; 0 is all well. The scan sends these bits as they are. */
#define TWI_NO_ADDRESS 0x01 /* the address was not acknowledged */
#define TWI_NO_BYTE 0x02    /* a byte was not acknowledged, or the bus was lost to another master */
#define TWI_TIME_LIMIT 0x04 /* the time limit passed */
#define TWI_FREED 0x08      /* SDA was held low and has been freed by clock pulses */
#define TWI_HELD 0x10       /* a line is still held low */

struct transfer {
  uint8_t address; /* 7 bit */
  const uint8_t *out;
  uint8_t out_count;
  uint8_t *in;
  uint8_t in_count;
  uint8_t stop_between; /* STOP before reading instead of a repeated START */
};

/* 1: 400 kHz, 0: 100 kHz. */
void twi_begin(uint8_t fast);
/* Lets go of the pins. */
void twi_end(void);
uint8_t twi_run(const struct transfer *wanted);

#endif
