/** The faults of boards and their buses: code, what it means, what to do. */
export const BOARD_FAULTS = {
  'board-lost': {
    means: 'the board no longer answers',
    remedy: 'Check cable and power; the board is looked for again by itself.',
  },
  'board-not-ours': {
    means: 'the board does not run our firmware',
    remedy: 'It is read by continuous reads; flash hardware/firmware/board.hex for board time.',
  },
  'bus-no-answer': {
    means: 'a chip on the I2C bus does not answer',
    remedy: 'Check wiring, power and address of the chip.',
  },
  'bus-stuck': {
    means: 'the I2C bus is held low',
    remedy: 'Take the chips off one by one to find the one that holds the bus.',
  },
  'bus-short-reply': {
    means: 'a chip answered with too few bytes',
    remedy: 'Check wiring and power of the chip.',
  },
  'chip-wrong-identity': {
    means: 'the chip at this address is not the one expected',
    remedy: 'Check the address and the part on the board.',
  },
  'chip-stuck': {
    means: 'a chip repeats one value',
    remedy: 'Power the board off and on; replace the chip if it goes on.',
  },
  'chip-saturated': {
    means: 'a reading is at the end of its range',
    remedy: 'Level the sensor; check that it is firmly mounted.',
  },
} as const;
