/** The faults of starting and running the programs: code, what it means, what to do. */
export const PROGRAM_FAULTS = {
  'program-died': {
    means: 'a program that belongs to this one ended before it was ready',
    remedy: 'What it said stands above; put that right and start again.',
  },
  'port-taken': {
    means: 'another program listens on the port',
    remedy: 'Stop that program, or choose another port with --port.',
  },
  'program-fault': {
    means: 'the program has a fault of its own',
    remedy:
      'What was written before is safe. Report what was done and what stands in the terminal.',
  },
} as const;
