/** The faults of instruments on a serial line: code, what it means, what to do. */
export const SERIAL_FAULTS = {
  'port-permission': {
    means: 'the system does not let this user open the serial port',
    remedy:
      'Join the group that is named (on Linux: sudo usermod -aG GROUP USER), and log in anew.',
  },
  'port-in-use': {
    means: 'another program holds the serial port',
    remedy: 'End the program that is named; two programs cannot read one port.',
  },
  'port-baud': {
    means: 'bytes come at this port, but at none of the rates tried do they make sense',
    remedy: 'Look up rate, parity and stop bits of the instrument, and name them.',
  },
  'serial-silent': {
    means: 'the instrument on the serial line sends none of the sentences asked for',
    remedy: 'Check supply, cable, rate and the sentences the instrument is set to send.',
  },
  'serial-too-slow': {
    means: 'the instrument gives too few readings a second to show rolling',
    remedy: 'Set it to ten a second (an NMEA 0183 line then needs 9600 baud or more).',
  },
  'serial-coarse': {
    means: 'the readings change in steps coarser than the instrument prints',
    remedy: 'Nothing is lost; readings of it are flagged by the step that was seen.',
  },
  'nmea-checksum': {
    means: 'the checksum of a sentence is wrong or missing',
    remedy: 'Check the cable for disturbance and the rate; the sentence was not used.',
  },
  'nmea-malformed': {
    means: 'a sentence was cut, too long or not of printable characters',
    remedy: 'Check the cable and the rate; nothing of the sentence was used.',
  },
  'nmea-field': {
    means: 'a field of a sentence is not what its place asks for',
    remedy: 'Compare the sentence with the manual of the instrument.',
  },
  'nmea-unit': {
    means: 'a value of a sentence is in another unit than asked for',
    remedy: 'Set the instrument to degrees, or name another transducer.',
  },
  'nmea-no-data': {
    means: 'the instrument sends the sentence without a value',
    remedy: 'Wait until it has started up; see its manual if it goes on.',
  },
  'nmea-repeated': {
    means: 'a sentence bears the same time as the one before',
    remedy: 'Its values were not taken; restart the instrument if it goes on.',
  },
  'modbus-no-answer': {
    means: 'no answer to a Modbus request within its time',
    remedy: 'Check unit number, rate, parity, the two wires (try them swapped) and the supply.',
  },
  'modbus-short-reply': {
    means: 'a Modbus answer ended before it was whole',
    remedy: 'Check cable and termination.',
  },
  'modbus-crc': {
    means: 'the check of a Modbus answer is wrong',
    remedy: 'Check rate and parity, termination, and that no two units have one number.',
  },
  'modbus-exception': {
    means: 'the instrument refuses the Modbus request',
    remedy: 'Compare table, register and number of registers with its manual.',
  },
  'modbus-wrong-reply': {
    means: 'a Modbus answer is not to what was asked',
    remedy: 'Check that one master only asks on this line, and no two units have one number.',
  },
  'modbus-not-a-number': {
    means: 'the registers hold no finite number',
    remedy: 'Check type and order of bytes and words; the instrument may not be ready.',
  },
} as const;
