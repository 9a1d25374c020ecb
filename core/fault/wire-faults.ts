/** The faults of messages between programs: code, what it means, what to do. */
export const WIRE_FAULTS = {
  'message-malformed': {
    means: 'a message is not of the agreed form',
    remedy: 'Use the same version on both sides.',
  },
  'message-unknown': {
    means: 'a message of an unknown type',
    remedy: 'Use the same version on both sides.',
  },
  'message-too-large': {
    means: 'a message over its size limit',
    remedy: 'Use the same version on both sides.',
  },
  'stream-unknown': {
    means: 'samples of a stream that was not opened',
    remedy: 'The board side sends the opening first; restart it.',
  },
  'stream-gap': {
    means: 'a block is missing from a stream',
    remedy: 'The board side sends again from the acknowledged block.',
  },
  'stream-conflict': {
    means: 'a block number came again with other bytes',
    remedy: 'Two board sides share one identity; stop one of them.',
  },
  'stream-over': {
    means: 'an item came after the stream was closed',
    remedy: 'The board side opens a new stream after a closing; restart it.',
  },
  'station-twice': {
    means: 'a second board side came with the identity of one that is connected',
    remedy: 'Stop one of them; a copied station folder needs an identity of its own.',
  },
  'station-not-said': {
    means: 'a board side sent something before its greeting, or of another station',
    remedy: 'Use the same version on both sides.',
  },
  'simulation-other': {
    means: 'a simulated vessel that is not the one of this record',
    remedy: 'Start it with the seed of the record, or begin a new record.',
  },
} as const;
