/** The faults of what was given to be computed: code, what it means, what to do. */
export const INPUT_FAULTS = {
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
} as const;
