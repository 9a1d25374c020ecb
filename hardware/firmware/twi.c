#include "twi.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/delay.h>
#include <util/twi.h>

#include "clock.h"

/* A byte takes 90 us at 100 kHz; chips may stretch the clock. */
#define LIMIT_US 2000
#define LIMIT_US_EACH_BYTE 200
#define SDA _BV(PC4)
#define SCL _BV(PC5)
#define GO (_BV(TWINT) | _BV(TWEN) | _BV(TWIE))

static struct transfer now;
static volatile uint8_t reading;
static volatile uint8_t done;
static volatile uint8_t met;

void twi_begin(uint8_t fast) {
  /* The port's own pull-ups go to 5 V: they stay off for the sake of 3.3 V chips. */
  DDRC &= ~(SDA | SCL);
  PORTC &= ~(SDA | SCL);
  TWSR = 0;
  TWBR = fast ? 12 : 72; /* 16 MHz / (16 + 2 TWBR) */
  TWCR = _BV(TWEN);
}

void twi_end(void) { TWCR = 0; }

static inline void finish(uint8_t what) {
  met = what;
  done = 1;
  TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWSTO);
}

static inline void ask_for_byte(void) {
  TWCR = now.in_count > 1 ? GO | _BV(TWEA) : GO;
}

ISR(TWI_vect) {
  switch (TW_STATUS) {
    case TW_START:
    case TW_REP_START:
      TWDR = (now.address << 1) | reading;
      TWCR = GO;
      break;
    case TW_MT_SLA_ACK:
    case TW_MT_DATA_ACK:
      if (now.out_count) {
        now.out_count--;
        TWDR = *now.out++;
        TWCR = GO;
      } else if (now.in_count) {
        reading = 1;
        TWCR = now.stop_between ? GO | _BV(TWSTO) | _BV(TWSTA) : GO | _BV(TWSTA);
      } else {
        finish(0);
      }
      break;
    case TW_MR_SLA_ACK:
      ask_for_byte();
      break;
    case TW_MR_DATA_ACK:
      *now.in++ = TWDR;
      now.in_count--;
      ask_for_byte();
      break;
    case TW_MR_DATA_NACK:
      *now.in = TWDR;
      finish(0);
      break;
    case TW_MT_SLA_NACK:
    case TW_MR_SLA_NACK:
      finish(TWI_NO_ADDRESS);
      break;
    default:
      finish(TWI_NO_BYTE);
      break;
  }
}

/* Low by driving, high by letting go. */
static void line(uint8_t mask, uint8_t high) {
  if (high) {
    DDRC &= ~mask;
  } else {
    DDRC |= mask;
  }
  _delay_us(5);
}

/* A chip cut off in the middle of a byte holds SDA until it has been clocked to its end. */
static uint8_t free_bus(void) {
  uint8_t pulses = 9;
  TWCR = 0;
  if (!(PINC & SCL)) return TWI_HELD;
  if (PINC & SDA) return 0;
  while (pulses-- && !(PINC & SDA)) {
    line(SCL, 0);
    line(SCL, 1);
  }
  if (!(PINC & SDA)) return TWI_HELD;
  line(SDA, 0);
  line(SDA, 1); /* the stop */
  return TWI_FREED;
}

uint8_t twi_run(const struct transfer *wanted) {
  uint8_t freed = 0;
  limit_start(LIMIT_US + (wanted->out_count + wanted->in_count) * LIMIT_US_EACH_BYTE);
  while ((TWCR & _BV(TWSTO)) && !limit_passed()) {
  }
  if ((PINC & (SDA | SCL)) != (SDA | SCL)) {
    freed = free_bus();
    if (freed == TWI_HELD) {
      limit_end();
      TWCR = _BV(TWEN);
      return TWI_HELD;
    }
  }
  now = *wanted;
  reading = now.out_count == 0 && now.in_count != 0;
  done = 0;
  met = 0;
  TWCR = GO | _BV(TWSTA);
  while (!done && !limit_passed()) REST_UNLESS(done || limit_passed());
  limit_end();
  if (!done) {
    freed |= free_bus() | TWI_TIME_LIMIT;
    TWCR = _BV(TWEN);
  }
  return met | freed;
}
