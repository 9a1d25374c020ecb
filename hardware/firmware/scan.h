/* The scan: README.md, "The scan". */
#ifndef SCAN_H
#define SCAN_H

#include <stdint.h>

void scan_hear(uint8_t *bytes, uint8_t count);
/* Runs the round whose tick waits, if one does. */
void scan_run(void);
void scan_clear(void);

#endif
