/* Pins of an Uno: 0-7 port D, 8-13 port B, 14-19 (A0-A5) port C. */
#ifndef PINS_H
#define PINS_H

#include <stdint.h>

#define PIN_COUNT 20
#define FIRST_ANALOG_PIN 14
#define ANALOG_COUNT 6
#define SDA_PIN 18
#define SCL_PIN 19

#define MODE_INPUT 0x00
#define MODE_OUTPUT 0x01
#define MODE_ANALOG 0x02
#define MODE_I2C 0x06
#define MODE_PULLUP 0x0B

/* Resolution of a mode on a pin in bits; 0 when the pin has not that mode. */
uint8_t pin_mode_bits(uint8_t pin, uint8_t mode);
uint8_t pin_mode(uint8_t pin);
/* Output: what was written. Input: whether the pull-up is on. */
uint8_t pin_state(uint8_t pin);
/* A mode the pin has not is passed over. */
void pin_set_mode(uint8_t pin, uint8_t mode);
void pin_write(uint8_t pin, uint8_t high);
void port_write(uint8_t port, uint8_t bits);

void report_analog(uint8_t channel, uint8_t wanted);
void report_digital(uint8_t port, uint8_t wanted);
void pins_set_interval(uint16_t ms);
/* Gives SDA and SCL to I2C. */
void pins_give_i2c(void);
void pins_reset(void);
/* Sends what is due. */
void pins_report(void);

#endif
