/* Firmware of a Heelwright sensor board: hear the host, scan, report, rest. README.md says what. */
#include <avr/wdt.h>

#include "clock.h"
#include "firmata.h"
#include "identity.h"
#include "pins.h"
#include "scan.h"
#include "uart.h"

int main(void) {
  clock_begin();
  uart_begin();
  sei();
  identity_begin();
  pins_reset();
  wdt_enable(WDTO_500MS);
  firmata_introduce();
  for (;;) {
    wdt_reset();
    if (uart_waits()) firmata_hear(uart_take());
    if (tick_waits()) scan_run();
    if (beat_waits()) pins_report();
    /* Most interrupts (a byte sent, a counter gone round) bring no work. */
    REST_UNLESS(uart_waits() || tick_waits() || beat_waits());
  }
}
