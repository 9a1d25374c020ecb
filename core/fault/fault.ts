/**
 * Every fault the program can name: a stable code, what it means, what to do.
 * A fault is data, not a crash: it travels with the place it was found at and is shown in words.
 */
export const FAULTS = {
  // input and usage
  'input-not-json': {
    means: 'the text is not JSON',
    remedy: 'Check the file for a missing bracket or quote.',
  },
  'input-shape': {
    means: 'a field is missing, of the wrong kind or unknown',
    remedy: 'Compare the input with `heelwright schema`.',
  },
  'input-not-finite': { means: 'a number is not finite', remedy: 'Replace the value by a number.' },
  'input-range': {
    means: 'a number is outside its range',
    remedy: 'Correct the number, or the unit it was given in.',
  },
  'input-contradiction': {
    means: 'two parts of the input contradict each other',
    remedy: 'Find out which of the two is right, and correct the other.',
  },
  'line-not-determined': {
    means: 'the readings do not determine a line of heel on moment',
    remedy: 'Read at least three arrangements of the weights, with differing moments.',
  },
  'no-convergence': {
    means: 'a calculation did not come to an end within its limit',
    remedy: 'Check the input for values far out of the ordinary; report it if they are right.',
  },
  'input-too-few': { means: 'there are too few values for this', remedy: 'Add readings.' },
  'input-too-large': { means: 'the input is larger than its limit', remedy: 'Split the input.' },
  'table-field': {
    means: 'a field of the table is not a number',
    remedy: 'Correct the field; leave it empty where a value is missing.',
  },
  'table-columns': {
    means: 'a row of the table has another number of fields than the first',
    remedy: 'Use one delimiter (comma, semicolon or tab) and the same columns in every row.',
  },
  'table-unit': {
    means: 'a column is in a unit that is not known here',
    remedy: 'Give time in s or ms and heel in degrees or radians.',
  },
  'table-time': {
    means: 'the times of the table do not go forward',
    remedy: 'Put seconds in the first column; use semicolons beside decimal commas.',
  },
  'table-encoding': {
    means: 'the file is not text in UTF-8',
    remedy: 'Save it as CSV in UTF-8.',
  },
  'samples-too-sparse': {
    means: 'the samples are too far apart to show rolling',
    remedy: 'Record at least 8 samples a second.',
  },
  'input-unequal-length': {
    means: 'columns that belong together differ in length',
    remedy: 'Give each reading one value in every column.',
  },
  'file-not-writable': {
    means: 'the file cannot be written',
    remedy: 'Check the name, the permission and the room on the disk.',
  },
  'file-not-readable': {
    means: 'the file cannot be read',
    remedy: 'Check the name and the permission.',
  },
  // record
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
  // wire
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
  // board and bus
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
  // station
  'port-not-open': {
    means: 'the serial port cannot be opened',
    remedy: 'Check the name of the port, its permission, and that no other program holds it.',
  },
  'board-silent': {
    means: 'nothing at this port speaks the board protocol',
    remedy: 'Check that the board is flashed with hardware/firmware/board.hex.',
  },
  'board-reset': {
    means: 'the board began anew by itself',
    remedy: 'Check its supply; a new stream has been opened.',
  },
  'scan-malformed': {
    means: 'a scan of the board is not of the agreed form',
    remedy: 'Check the cable for disturbance; flash the firmware of this version.',
  },
  'chip-unchecked': {
    means: 'a chip answers again after a fault and has not been checked yet',
    remedy: 'Nothing: it is checked by itself within a second.',
  },
  'chip-not-ready': {
    means: 'a conversion that this scan should have read was not started by the scan before',
    remedy: 'Nothing if it is the first scan; else see the fault before it.',
  },
  'chip-not-configured': {
    means: 'a chip does not keep what is written to it',
    remedy: 'Check its supply and wiring; replace the chip if it goes on.',
  },
  'spool-full': {
    means: 'the station has no room for more samples that are not yet acknowledged',
    remedy: 'Connect the receiver, or free space on the disk of the station.',
  },
  'spool-damaged': {
    means: 'part of the spool is not as it was written',
    remedy: 'What follows the damage was set aside; check the disk.',
  },
  'spool-disk': {
    means: 'the spool cannot be written to disk',
    remedy: 'Free space on the disk of the station.',
  },
  'station-folder': {
    means: 'the data folder of the station cannot be used',
    remedy: 'Choose a folder of your own with --data; one program uses it at a time.',
  },
  'link-not-private': {
    means: 'the receiver is on another machine and the connection would not be encrypted',
    remedy: 'Use a wss:// address, or run the receiver on this machine.',
  },
  'link-lost': {
    means: 'the receiver does not answer',
    remedy: 'Nothing is lost: samples are kept and sent when it answers again.',
  },
  // programs
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
  // hull
  'hull-number': {
    means: 'a field of a hull table is not a number',
    remedy: 'Correct the field; every row needs all its numbers.',
  },
  'hull-columns': {
    means: 'a column of a hull table is missing, doubled or unknown',
    remedy: 'Head the columns xM,zM,halfBreadthM; see heelwright hydrostatics --help.',
  },
  'hull-few-stations': {
    means: 'the hull has fewer than five stations',
    remedy: 'Give at least five sections; ends that run to a point need one point only.',
  },
  'hull-order': {
    means: 'the points of a section do not follow each other up the section',
    remedy: 'Give them in order from the keel to the deck edge.',
  },
  'hull-crossing': {
    means: 'the outline of a section crosses itself',
    remedy: 'Compare the points with the lines plan; two of them may have changed places.',
  },
  'hull-millimetres': {
    means: 'the numbers are too large for metres',
    remedy: 'Give metres; these look like millimetres or centimetres.',
  },
  'hull-asymmetric': {
    means: 'the table holds more than one side of the hull',
    remedy: 'Give half-breadths, none negative, of one side; the other is its mirror image.',
  },
  'hull-twin': {
    means: 'the section stands beside the centre plane, as of a twin hull',
    remedy: 'A table of half-breadths cannot hold a twin hull.',
  },
  'hull-tunnel': {
    means: 'the section rises to the centre plane, as of a tunnel',
    remedy:
      'A table of half-breadths cannot hold it; close the outline and give the tunnel as a flooded appendage.',
  },
  'hull-offsets': {
    means: 'the table of offsets does not make a hull',
    remedy: 'Compare the table with the lines plan.',
  },
  'hull-deck': {
    means: 'the deck line does not fit the sections',
    remedy: 'Let the deck line run from end to end of the hull, below the top of every section.',
  },
  'hull-sinks': {
    means: 'the weight is more than the hull can carry, or none',
    remedy: 'Check the weight and the density of the water.',
  },
  'hull-no-rest': {
    means: 'the hull finds no position of rest with this weight and centre',
    remedy: 'Check the height of the centre of gravity and its place fore and aft.',
  },
  'tables-outside': {
    means: 'a value beyond the hydrostatic tables; they are never extrapolated',
    remedy: 'Get tables that reach this far, or give the table of offsets.',
  },
  // instruments and acts
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
  // people
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
} as const satisfies Record<string, { means: string; remedy: string }>;

export type FaultCode = keyof typeof FAULTS;

/** A fault as it is recorded and sent: the code, where it was found, what was found there. */
export interface FaultReport {
  readonly code: FaultCode;
  /** The place: a file and line, a message and field, a board and chip. */
  readonly where: string;
  /** What was found there, in words, with the value. */
  readonly found: string;
}

/** The same fault thrown, where the caller cannot go on. */
export class Fault extends Error {
  override readonly name = 'Fault';
  readonly report: FaultReport;

  constructor(code: FaultCode, where: string, found: string) {
    super(`${code}: ${FAULTS[code].means} (${where}: ${found}). ${FAULTS[code].remedy}`);
    this.report = { code, where, found };
  }

  get code(): FaultCode {
    return this.report.code;
  }
}
