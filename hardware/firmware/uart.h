/* The serial line to the host: 115200 baud, 8N1, a ring of 255 bytes each way. */
#ifndef UART_H
#define UART_H

#include <stdint.h>

void uart_begin(void);
uint8_t uart_waits(void);
/* Only when uart_waits(). */
uint8_t uart_take(void);
/* Bytes that can be put without waiting. */
uint8_t uart_room(void);
/* Sleeps while there is no room. */
void uart_put(uint8_t byte);

#endif
