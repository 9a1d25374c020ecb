#include "uart.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "clock.h"

/* Indices wrap by themselves at 256. */
static volatile uint8_t heard[256];
static volatile uint8_t heard_in, heard_out;
static volatile uint8_t said[256];
static volatile uint8_t said_in, said_out;

void uart_begin(void) {
  UCSR0A = _BV(U2X0);
  UBRR0 = 16; /* 16 MHz / 8 / 17 = 117647: 2.1 % fast, within what 8N1 bears */
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
}

ISR(USART_RX_vect) {
  uint8_t byte = UDR0;
  uint8_t next = heard_in + 1;
  if (next == heard_out) return; /* full: the message is spoilt, the parser finds the next one */
  heard[heard_in] = byte;
  heard_in = next;
}

ISR(USART_UDRE_vect) {
  uint8_t out = said_out;
  UDR0 = said[out];
  said_out = ++out;
  if (out == said_in) UCSR0B &= ~_BV(UDRIE0);
}

uint8_t uart_waits(void) { return heard_in != heard_out; }

uint8_t uart_take(void) {
  uint8_t byte = heard[heard_out];
  heard_out++;
  return byte;
}

uint8_t uart_room(void) { return (uint8_t)(said_out - said_in - 1); }

void uart_put(uint8_t byte) {
  while (uart_room() == 0) REST_UNLESS(uart_room() != 0);
  said[said_in] = byte;
  cli();
  said_in++;
  UCSR0B |= _BV(UDRIE0);
  sei();
}
