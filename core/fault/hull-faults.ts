/** The faults of hull, tables and float: code, what it means, what to do. */
export const HULL_FAULTS = {
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
} as const;
