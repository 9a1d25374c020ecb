/* Who this board is, and how many times it has started: EEPROM. */
#ifndef IDENTITY_H
#define IDENTITY_H

#include <stdint.h>

#define ID_BYTES 8
#define NAME_MOST 16

extern uint8_t board_id[ID_BYTES];
extern char board_name[NAME_MOST];
extern uint8_t board_name_count;
extern uint32_t reset_counter;
extern uint8_t start_cause;

/* Reads the identity, draws one at the very first start, and counts this start. */
void identity_begin(void);
void identity_set_name(const uint8_t *name, uint8_t count);
void identity_set_id(const uint8_t *id);

#endif
