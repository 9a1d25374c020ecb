/* Time on the board: timer 1 runs freely at half microseconds and is never set. */
#ifndef CLOCK_H
#define CLOCK_H

#include <avr/interrupt.h>
#include <avr/sleep.h>
#include <stdint.h>

/* Sleeps until the next interrupt unless the condition holds already. Nothing is lost between the
   look and the sleep: the instruction after sei always runs before a waiting interrupt. */
#define REST_UNLESS(condition) \
  do {                         \
    cli();                     \
    if (!(condition)) {        \
      sleep_enable();          \
      sei();                   \
      sleep_cpu();             \
      sleep_disable();         \
    }                          \
    sei();                     \
  } while (0)

void clock_begin(void);
/* Microseconds since the start; wraps after 71.6 minutes. */
uint32_t clock_us(void);

/* The scan's tick. */
struct tick {
  uint32_t at_us;
  uint16_t sequence;
  uint8_t waiting;
};
void tick_start(uint32_t period_us);
void tick_stop(void);
/* Copies and takes the waiting tick; 0 when none waits. */
uint8_t tick_take(struct tick *taken);
uint8_t tick_waits(void);

/* A millisecond beat, only while something needs it: an idle board sleeps longer. */
void beat_want(uint8_t wanted);
/* Milliseconds passed since asked last. */
uint8_t beat_take(void);
uint8_t beat_waits(void);

/* One time limit at a time, at most 30000 us. */
void limit_start(uint16_t us);
void limit_end(void);
uint8_t limit_passed(void);

#endif
