/** The faults of people and their access: code, what it means, what to do. */
export const PEOPLE_FAULTS = {
  'record-signature': {
    means: 'a receipt or signature in the record does not fit its lines',
    remedy: 'Treat the lines before it as unproven; ask the signer for their receipt.',
  },
  'words-not-known': {
    means: 'a word is none of those receipts and invitations are made of',
    remedy: 'Compare it, letter by letter, with the words that were read out.',
  },
  'receipt-not-read': {
    means: 'the text is no receipt',
    remedy: 'Give the number of lines and the eight words, as the receipt has them.',
  },
  'receipt-not-ours': {
    means: 'the receipt is not of this record as it stood within the last minutes',
    remedy: 'Take a new receipt; if that fails too, keep the old one and have the record verified.',
  },
  'access-not-said': {
    means: 'the first message of a connection must say who asks for access',
    remedy: 'Send a token or an invitation first, within five seconds and one kilobyte.',
  },
  'access-unknown': {
    means: 'the token is not known here, or was withdrawn',
    remedy: 'Ask the architect for an invitation.',
  },
  'invitation-not-valid': {
    means: 'the invitation is wrong, used already or too old',
    remedy: 'Ask for a new one: a code opens once, four words for two minutes.',
  },
  'access-not-here': {
    means: 'this role cannot come in over this connection',
    remedy: 'Come from this machine or over TLS; off it, plain http is for the witness only.',
  },
  'station-not-the-one': {
    means: 'a board side gives itself out as a station it cannot show to be',
    remedy: 'Find out which board side it is; a new one has a data folder of its own.',
  },
  'receiver-not-the-one': {
    means: 'the receiver does not have the key this station was paired with',
    remedy: 'Make sure it is the right machine; then pair again with --pair and --pin.',
  },
  'access-full': {
    means: 'as many are connected in this role as there can be',
    remedy: 'Close a window or a board side that is no longer used.',
  },
  'access-crowded': {
    means: 'more connections ask for access than are heard at once',
    remedy: 'Wait; the screen asks again by itself.',
  },
} as const;
