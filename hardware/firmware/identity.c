#include "identity.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>
#include <string.h>

#include "clock.h"
#include "pack.h"

struct stored {
  uint8_t id[ID_BYTES];
  uint8_t name_count;
  char name[NAME_MOST];
  uint16_t check;
};

struct count_place {
  uint32_t number;
  uint16_t check;
};

#define STORED ((struct stored *)0)
#define COUNT_PLACES ((struct count_place *)32)
#define COUNT_PLACE_COUNT 16
/* Makes the check of sixteen zero or 0xFF bytes wrong, so that an empty EEPROM is not a valid one. */
#define EEPROM_CHECK_START 0x4857

uint8_t board_id[ID_BYTES];
char board_name[NAME_MOST];
uint8_t board_name_count;
uint32_t reset_counter;
uint8_t start_cause __attribute__((section(".noinit")));

/* Before the data are laid out: the cause is gone as soon as a bootloader or we clear it, and
   after a watchdog reset the watchdog runs on at its shortest time. A bootloader that cleared the
   cause hands it over in r2. */
void early(void) __attribute__((naked, used, section(".init3")));
void early(void) {
  uint8_t from_bootloader;
  __asm__ volatile("mov %0, r2" : "=r"(from_bootloader));
  uint8_t cause = MCUSR;
  start_cause = (cause ? cause : from_bootloader) & 0x0F;
  MCUSR = 0;
  wdt_disable();
}

static uint32_t drawn[2];

static void stir(uint8_t sample) {
  uint32_t a = drawn[0] ^ sample;
  a ^= a << 13;
  a ^= a >> 17;
  a ^= a << 5;
  drawn[0] = a;
  drawn[1] = ((drawn[1] << 7) | (drawn[1] >> 25)) + a;
}

static volatile uint8_t phase_seen;

/* The watchdog's own RC oscillator against the crystal: the low bits of the difference are noise. */
ISR(WDT_vect) {
  stir(TCNT1L);
  phase_seen++;
}

static void draw_id(void) {
  drawn[0] = 0x9E3779B9;
  drawn[1] = 0x7F4A7C15;
  ADCSRA = _BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  for (uint16_t i = 0; i < 512; i++) {
    /* inputs 0 to 7 and the temperature, against 1.1 V: the finest step there is */
    ADMUX = _BV(REFS1) | _BV(REFS0) | (i % 9);
    ADCSRA |= _BV(ADSC);
    while (ADCSRA & _BV(ADSC)) {
    }
    stir(ADCL);
    stir(ADCH);
  }
  phase_seen = 0;
  WDTCSR = _BV(WDCE) | _BV(WDE);
  WDTCSR = _BV(WDIE); /* interrupt each 16 ms, no reset */
  while (phase_seen < 16) REST_UNLESS(phase_seen >= 16);
  wdt_disable();
  memcpy(board_id, drawn, ID_BYTES);
}

static void store(void) {
  struct stored kept;
  memcpy(kept.id, board_id, ID_BYTES);
  kept.name_count = board_name_count;
  memcpy(kept.name, board_name, NAME_MOST);
  kept.check = check_over(EEPROM_CHECK_START, (uint8_t *)&kept, sizeof kept - 2);
  eeprom_update_block(&kept, STORED, sizeof kept);
}

static void count_start(void) {
  uint8_t latest = COUNT_PLACE_COUNT - 1;
  for (uint8_t i = 0; i < COUNT_PLACE_COUNT; i++) {
    struct count_place place;
    eeprom_read_block(&place, &COUNT_PLACES[i], sizeof place);
    if (check_over(EEPROM_CHECK_START, (uint8_t *)&place, sizeof place - 2) != place.check) continue;
    if (place.number < reset_counter) continue;
    reset_counter = place.number;
    latest = i;
  }
  reset_counter++;
  struct count_place place = {.number = reset_counter};
  place.check = check_over(EEPROM_CHECK_START, (uint8_t *)&place, sizeof place - 2);
  eeprom_update_block(&place, &COUNT_PLACES[(latest + 1) % COUNT_PLACE_COUNT], sizeof place);
}

void identity_begin(void) {
  struct stored kept;
  eeprom_read_block(&kept, STORED, sizeof kept);
  if (check_over(EEPROM_CHECK_START, (uint8_t *)&kept, sizeof kept - 2) == kept.check &&
      kept.name_count <= NAME_MOST) {
    memcpy(board_id, kept.id, ID_BYTES);
    memcpy(board_name, kept.name, NAME_MOST);
    board_name_count = kept.name_count;
  } else {
    draw_id();
    store();
  }
  count_start();
}

void identity_set_name(const uint8_t *name, uint8_t count) {
  memset(board_name, 0, NAME_MOST);
  memcpy(board_name, name, count);
  board_name_count = count;
  store();
}

void identity_set_id(const uint8_t *id) {
  memcpy(board_id, id, ID_BYTES);
  store();
}
