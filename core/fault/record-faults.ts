/** The faults of the record: code, what it means, what to do. */
export const RECORD_FAULTS = {
  'record-chain': {
    means: 'a line does not follow from the line before it',
    remedy: 'Treat everything from this line on as unproven; take another copy.',
  },
  'record-line': {
    means: 'a line of the record is not well formed',
    remedy: 'Take another copy of the record.',
  },
  'record-newer': {
    means: 'the record was written by a newer program',
    remedy: 'Open it with the newer program.',
  },
  'record-locked': {
    means: 'another receiver is writing this record',
    remedy: 'Stop the other receiver or choose another record.',
  },
  'record-disk': {
    means: 'the record cannot be written to disk',
    remedy: 'Free space on the disk; nothing is acknowledged until it can be written.',
  },
  'correction-unfit': {
    means: 'a correction does not fit the line it names',
    remedy:
      'Nothing is changed. Look up the line, and name what stands there now and what is right.',
  },
  'overruling-unfit': {
    means: 'what is to be overruled does not stand there, or cannot be overruled',
    remedy: 'Name the line of a disturbance of this state, of a voiding or of a correction.',
  },
  'certificate-unfit': {
    means: 'the certificate cannot take the place of the one in force',
    remedy: 'Give the new certificate of an instrument that has one, under a number of its own.',
  },
  'entry-stale': {
    means: 'the row was changed meanwhile, by somebody else or in another window',
    remedy: 'Look at what stands there now, and enter yours again if it is still right.',
  },
  'entry-unfit': {
    means: 'what was entered contradicts itself or the test',
    remedy: 'Correct what is named, and enter it again.',
  },
  'photograph-unfit': {
    means: 'the picture is no JPEG, or larger than its limit',
    remedy: 'Take it again, or let the screen scale it to a megabyte.',
  },
} as const;
