/** What may be wrong with a test, and what to do. `beforehand`: logarithm of how likely against others, ours. */
export const CAUSES = {
  weight: {
    is: "a weight's moment is not as written: mass, mark, tape or side",
    todo: 'Weigh it again, measure from mark to mark, look on which side it stood; then correct the entry.',
    beforehand: 0,
  },
  'disturbed-state': {
    is: 'one state was disturbed: wind, a wake, people, a line',
    todo: 'Bring the weights to that state once more and read it again.',
    beforehand: -0.5,
  },
  moved: {
    is: 'somebody or something moved and stayed',
    todo: 'Bring people and gear back to their marks, look for what shifted or was taken off, and repeat the zero and the states after it.',
    beforehand: 0,
  },
  line: {
    is: 'a line, a fender or the quay holds her to one side',
    todo: 'Slack off the lines, bring her clear of quay and fenders, and repeat that side.',
    beforehand: 0,
  },
  'tank-wall': {
    is: "a slack tank's liquid reaches a wall, the top or the bottom",
    todo: 'Sound the tanks; empty or press up what is slack, or shift less, and repeat.',
    beforehand: -0.3,
  },
  'free-surface': {
    is: 'liquid was set free: a bilge or deck filling, a tank no longer pressed up',
    todo: 'Sound tanks, bilges and voids again, look on deck, pump out, and repeat the states after it.',
    beforehand: -0.3,
  },
  'cross-connection': {
    is: 'liquid runs slowly to the low side after each shift: a cross-connection is open',
    todo: 'Close the valves between port and starboard tanks, sound both sides, and repeat.',
    beforehand: -0.3,
  },
  ground: {
    is: 'something holds her on both sides since a state: ground under her, lines come tight with the tide',
    todo: 'Sound the water round her, slack off the lines, and repeat the states after it afloat.',
    beforehand: -0.5,
  },
  'hull-asymmetry': {
    is: 'her two sides differ: hull, a bent plate, a one-sided appendage',
    todo: 'Measure both sides of the hull where she was altered; reduce the sides apart.',
    beforehand: -4,
  },
  'list-drift': {
    is: 'her list changes with time: a leak, consumption, transfer, sun on one side',
    todo: 'Sound everything again, repeat the zero, and take the drift off only when its source is known.',
    beforehand: 0,
  },
  wind: {
    is: 'wind or current heels her by another angle from state to state',
    todo: 'Wait for calm, turn her head to the wind, read longer, and read states again.',
    beforehand: 0,
  },
  scale: {
    is: "one instrument's scale, length or span is wrong",
    todo: 'Check its certificate, length or span; leave it out until it is calibrated.',
    beforehand: 0,
  },
  slipped: {
    is: 'one instrument slipped or was knocked',
    todo: 'Fasten it, and enter it as put down anew from there on.',
    beforehand: 0,
  },
  'misread-instrument': {
    is: 'one instrument was misread or disturbed in one state',
    todo: 'Read that state again with it, or leave that reading out with the reason.',
    beforehand: -0.5,
  },
} as const;

export type CauseName = keyof typeof CAUSES;
