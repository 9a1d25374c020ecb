/* Firmata's I2C requests. */
#ifndef I2C_REQUESTS_H
#define I2C_REQUESTS_H

#include <stdint.h>

void i2c_config(const uint8_t *bytes, uint8_t count);
void i2c_request(uint8_t *bytes, uint8_t count);
/* Whether any continuous read is asked for. */
uint8_t i2c_continues(void);
/* Answers all continuous reads once. */
void i2c_continue(void);
/* Makes the bus ready for the scan, too. */
void i2c_open(uint8_t fast);
void i2c_reset(void);

#endif
