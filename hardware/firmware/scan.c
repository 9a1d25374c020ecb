#include "scan.h"

#include <string.h>

#include "clock.h"
#include "firmata.h"
#include "i2c-requests.h"
#include "identity.h"
#include "pack.h"
#include "twi.h"
#include "uart.h"

#define MESSAGES_VERSION 1
#define STEPS_MOST 16
#define READ_MOST 32
#define WRITE_MOST 4
#define FRAME_BYTES_MOST 96
#define PERIOD_LEAST_US 2000
#define PERIOD_MOST_US 10000000

enum { QUERY, CLEAR, STEP, START, STOP, NAME, IDENTITY };
enum { TELL_IDENTITY = 0x40, TELL_STATE, TELL_FRAME };
enum { RUNS, STOPPED, LIST_EMPTY, LIST_BROKEN, PERIOD_OUT, BUS_CLOCK_UNKNOWN };

#define ON_EVEN 0x01
#define ON_ODD 0x02
#define AFTER_FRAME 0x04
#define NO_REGISTER 0x08
#define STOP_BETWEEN 0x10
#define STEP_FAILED_BEFORE 0x20 /* in the frame's bus byte, beside twi.h's bits */
#define FRAME_HEAD_BYTES 17

struct step {
  uint8_t address;
  uint8_t options;
  uint8_t register_number;
  uint8_t read_count;
  uint8_t write_count;
  uint8_t write[WRITE_MOST];
};

static struct step steps[STEPS_MOST];
static uint8_t step_count;
static uint8_t frame_bytes[2]; /* read in an even, in an odd frame */
static uint8_t broken;
static uint16_t list_check = CHECK_START;
static uint32_t period_us;

static uint8_t frame[FRAME_BYTES_MOST];
static uint16_t skipped;
static uint16_t next_sequence;
static uint16_t failed_before; /* steps that failed in the frame before */
static uint8_t frame_before;   /* it ran */

static void tell_identity(void) {
  pack_begin(TELL_IDENTITY);
  pack_byte(MESSAGES_VERSION);
  for (uint8_t i = 0; i < ID_BYTES; i++) pack_byte(board_id[i]);
  pack_long(reset_counter);
  pack_byte(start_cause);
  pack_byte(step_count);
  pack_long(period_us);
  pack_long(clock_us());
  pack_byte(board_name_count);
  for (uint8_t i = 0; i < board_name_count; i++) pack_byte(board_name[i]);
  pack_end();
}

static void tell_state(uint8_t result) {
  pack_begin(TELL_STATE);
  pack_byte(result);
  pack_byte(step_count);
  pack_byte(frame_bytes[0]);
  pack_byte(frame_bytes[1]);
  pack_word(list_check);
  pack_long(period_us);
  pack_end();
}

static void stop(void) {
  tick_stop();
  period_us = 0;
}

void scan_clear(void) {
  stop();
  step_count = 0;
  frame_bytes[0] = frame_bytes[1] = 0;
  broken = 0;
  list_check = CHECK_START;
}

static uint8_t add_step(const uint8_t *body, uint8_t count) {
  if (period_us || step_count == STEPS_MOST || count < 5) return 0;
  struct step step;
  memcpy(&step, body, 5);
  if (step.address < 1 || step.address > 127 || !(step.options & (ON_EVEN | ON_ODD)) ||
      step.options > 0x1F || step.read_count > READ_MOST || step.write_count > WRITE_MOST ||
      count != 5 + step.write_count) {
    return 0;
  }
  memcpy(step.write, body + 5, step.write_count);
  for (uint8_t odd = 0; odd < 2; odd++) {
    if (!(step.options & (odd ? ON_ODD : ON_EVEN))) continue;
    if (frame_bytes[odd] + step.read_count > FRAME_BYTES_MOST) return 0;
  }
  if (step.options & ON_EVEN) frame_bytes[0] += step.read_count;
  if (step.options & ON_ODD) frame_bytes[1] += step.read_count;
  steps[step_count++] = step;
  list_check = check_over(list_check, body, count);
  return 1;
}

static void start(const uint8_t *body) {
  uint32_t wanted_us;
  memcpy(&wanted_us, body, 4);
  stop();
  if (!step_count && !broken) {
    tell_state(LIST_EMPTY);
  } else if (broken) {
    tell_state(LIST_BROKEN);
  } else if (wanted_us < PERIOD_LEAST_US || wanted_us > PERIOD_MOST_US) {
    tell_state(PERIOD_OUT);
  } else if (body[4] > 1) {
    tell_state(BUS_CLOCK_UNKNOWN);
  } else {
    period_us = wanted_us;
    skipped = 0;
    next_sequence = 0;
    failed_before = 0;
    frame_before = 0;
    i2c_open(body[4]);
    tell_state(RUNS);
    tick_start(period_us);
  }
}

/* Messages with a body; 0 when the body is not of its kind. */
static uint8_t hear_body(uint8_t sub, const uint8_t *body, uint8_t count) {
  switch (sub) {
    case STEP:
      if (add_step(body, count)) return 1;
      broken = 1;
      return 0;
    case START:
      if (count != 5) return 0;
      start(body);
      return 1;
    case NAME:
      if (count > NAME_MOST) return 0;
      identity_set_name(body, count);
      tell_identity();
      return 1;
    case IDENTITY:
      if (count != ID_BYTES) return 0;
      identity_set_id(body);
      tell_identity();
      return 1;
    default:
      return 0;
  }
}

void scan_hear(uint8_t *bytes, uint8_t count) {
  if (!count) return;
  uint8_t sub = bytes[0];
  if (sub == QUERY) {
    tell_identity();
  } else if (sub == CLEAR) {
    scan_clear();
  } else if (sub == STOP) {
    stop();
    tell_state(STOPPED);
  } else {
    uint8_t length = unpack(bytes + 1, count - 1);
    if (length != 0xFF && hear_body(sub, bytes + 1, length)) return;
    if (sub == STEP) broken = 1;
    firmata_string(PSTR("scan: refused"));
  }
}

static uint8_t run_step(const struct step *step, uint8_t *into) {
  uint8_t out[1 + WRITE_MOST];
  uint8_t count = 0;
  if (!(step->options & NO_REGISTER)) out[count++] = step->register_number;
  memcpy(out + count, step->write, step->write_count);
  struct transfer transfer = {.address = step->address,
                              .out = out,
                              .out_count = count + step->write_count,
                              .in = into,
                              .in_count = step->read_count,
                              .stop_between = step->options & STOP_BETWEEN};
  return twi_run(&transfer);
}

/* Whether what this step reads was not set going by the frame before. */
static uint8_t lacks_frame_before(const struct step *step) {
  if (!(step->options & AFTER_FRAME)) return 0;
  if (!frame_before) return 1;
  for (uint8_t k = 0; k < step_count; k++) {
    if ((failed_before & (1U << k)) && steps[k].address == step->address &&
        !(steps[k].options & AFTER_FRAME)) {
      return 1;
    }
  }
  return 0;
}

static void tell_frame(const struct tick *tick, uint16_t lasted_us, uint16_t failed, uint8_t bus) {
  uint8_t count = frame_bytes[tick->sequence & 1];
  if (uart_room() < pack_line_bytes(FRAME_HEAD_BYTES + count + 2)) {
    skipped++;
    return;
  }
  pack_begin(TELL_FRAME);
  pack_word(tick->sequence);
  pack_long(tick->at_us);
  pack_word(lasted_us);
  pack_word(failed);
  pack_word(skipped);
  pack_byte(bus);
  pack_byte(board_id[0]);
  pack_byte(board_id[1]);
  pack_word(reset_counter);
  for (uint8_t i = 0; i < count; i++) pack_byte(frame[i]);
  pack_end();
}

void scan_run(void) {
  struct tick tick;
  if (!tick_take(&tick)) return;
  uint16_t missed = tick.sequence - next_sequence;
  next_sequence = tick.sequence + 1;
  skipped += missed;
  if (missed) frame_before = 0;

  uint8_t phase = tick.sequence & 1 ? ON_ODD : ON_EVEN;
  uint16_t failed = 0;
  uint8_t bus = 0, limits = 0;
  uint8_t *into = frame;
  for (uint8_t k = 0; k < step_count; k++) {
    const struct step *step = &steps[k];
    if (!(step->options & phase)) continue;
    /* A held bus, or two steps that ran into their limit, is enough waiting for one round. */
    uint8_t met = bus & TWI_HELD || limits == 2 ? TWI_TIME_LIMIT : run_step(step, into);
    if (met & TWI_TIME_LIMIT) limits++;
    if (!(met & ~TWI_FREED) && lacks_frame_before(step)) met |= STEP_FAILED_BEFORE;
    bus |= met;
    if (met & ~TWI_FREED) {
      failed |= 1U << k;
      memset(into, 0, step->read_count);
    }
    into += step->read_count;
  }
  tell_frame(&tick, clock_us() - tick.at_us, failed, bus);
  failed_before = failed;
  frame_before = 1;
}
