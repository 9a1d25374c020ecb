#include "clock.h"

#include <avr/io.h>
#include <util/atomic.h>

static volatile uint32_t overflows;
static volatile struct tick tick;
static uint32_t tick_due_us;
static uint32_t tick_period_us;
static uint16_t tick_next_sequence;
static volatile uint8_t beats;
static volatile uint8_t passed;

void clock_begin(void) {
  TCCR1A = 0;
  TCCR1B = _BV(CS11); /* 16 MHz / 8 */
  TIMSK1 = _BV(TOIE1);
  TCCR0A = _BV(WGM01);
  OCR0A = 249; /* 16 MHz / 64 / 250 = 1 kHz */
  set_sleep_mode(SLEEP_MODE_IDLE);
}

ISR(TIMER1_OVF_vect) { overflows++; }

/* With interrupts off. */
static uint32_t now_us(void) {
  uint16_t count = TCNT1;
  uint32_t high = overflows;
  /* The counter has gone round and its interrupt has not been served yet. */
  if ((TIFR1 & _BV(TOV1)) && count < 0x8000) high++;
  return (high << 15) | (count >> 1);
}

uint32_t clock_us(void) {
  uint32_t us;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { us = now_us(); }
  return us;
}

void tick_start(uint32_t period_us) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    tick_period_us = period_us;
    tick_due_us = now_us() + period_us;
    tick_next_sequence = 0;
    tick.waiting = 0;
    OCR1A = (uint16_t)(tick_due_us << 1);
    TIFR1 = _BV(OCF1A);
    TIMSK1 |= _BV(OCIE1A);
  }
}

void tick_stop(void) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    TIMSK1 &= ~_BV(OCIE1A);
    tick.waiting = 0;
  }
}

/* The compare comes once each 32.8 ms; only the one at the due time is a tick. */
ISR(TIMER1_COMPA_vect) {
  if ((int32_t)(now_us() - tick_due_us) < 0) return;
  tick.at_us = tick_due_us;
  tick.sequence = tick_next_sequence++;
  tick.waiting = 1;
  tick_due_us += tick_period_us;
  OCR1A = (uint16_t)(tick_due_us << 1);
}

uint8_t tick_take(struct tick *taken) {
  uint8_t waited;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    waited = tick.waiting;
    taken->at_us = tick.at_us;
    taken->sequence = tick.sequence;
    tick.waiting = 0;
  }
  return waited;
}

uint8_t tick_waits(void) { return tick.waiting; }

void beat_want(uint8_t wanted) {
  if (wanted) {
    if (TIMSK0 & _BV(OCIE0A)) return;
    TCNT0 = 0;
    TIFR0 = _BV(OCF0A);
    TCCR0B = _BV(CS01) | _BV(CS00);
    TIMSK0 = _BV(OCIE0A);
  } else {
    TIMSK0 = 0;
    TCCR0B = 0;
    beats = 0;
  }
}

ISR(TIMER0_COMPA_vect) {
  if (beats < 255) beats++;
}

uint8_t beat_take(void) {
  uint8_t count;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    count = beats;
    beats = 0;
  }
  return count;
}

uint8_t beat_waits(void) { return beats; }

void limit_start(uint16_t us) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    passed = 0;
    OCR1B = TCNT1 + (us << 1);
    TIFR1 = _BV(OCF1B);
    TIMSK1 |= _BV(OCIE1B);
  }
}

void limit_end(void) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { TIMSK1 &= ~_BV(OCIE1B); }
}

ISR(TIMER1_COMPB_vect) {
  passed = 1;
  TIMSK1 &= ~_BV(OCIE1B);
}

uint8_t limit_passed(void) { return passed; }
