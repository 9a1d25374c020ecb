/** The faults of instruments and what people do with them: code, what it means, what to do. */
export const INSTRUMENT_FAULTS = {
  'instrument-unknown': {
    means: 'no instrument of this name is mounted',
    remedy: 'Name one of those on the page of the sensors.',
  },
  'instrument-uncalibrated': {
    means: 'the instrument has no valid calibration certificate',
    remedy: 'Calibrate its scale; until then it is shown but not used for GM.',
  },
  'leg-loop-broken': {
    means: 'the current of a level transmitter is outside 3.6 to 21 mA',
    remedy: 'Check the plug, the supply and the shunt of this leg of the water tube.',
  },
  'leg-pressure-unsound': {
    means: 'a pressure sensor of the water tube or its supply gives what no sound one gives',
    remedy: 'Check the plug and the supply (4.75 to 5.25 V) of this leg of the water tube.',
  },
  'sensor-upside-down': {
    means: 'a sensor hangs upside down or stands on its side',
    remedy: 'Mount it flat with its top up.',
  },
  'sign-wrong': {
    means: 'the instrument did not show starboard down when starboard was pushed down',
    remedy: 'Push harder; if it goes to port, put the other sign into its mounting.',
  },
  'act-not-now': {
    means: 'this act does not belong here in the order of the day',
    remedy: 'Finish the step that is open first.',
  },
  'act-not-yours': {
    means: 'this act belongs to another role',
    remedy: 'A witness remarks; the architect conducts the test.',
  },
  'roll-not-found': {
    means: 'no free roll is seen that is not in the record yet',
    remedy: 'Set her rolling, stop what sets her rolling, and wait until the roll has died.',
  },
  'act-not-steady': {
    means: 'the heel is not steady enough to be read',
    remedy: 'Wait until the screen says steady.',
  },
} as const;
