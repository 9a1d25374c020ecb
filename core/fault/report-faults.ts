/** The faults of making documents and of taking tables in: code, what it means, what to do. */
export const REPORT_FAULTS = {
  'text-not-printable': {
    means: 'a text holds letters of a script that is not printed',
    remedy: 'Write it in Latin, Greek or Cyrillic letters.',
  },
  'report-busy': {
    means: 'another document is being made',
    remedy: 'Ask again in a few seconds.',
  },
  'report-not-made': {
    means: 'the document could not be made',
    remedy: 'Nothing is changed. Try again; report what was done if it stays so.',
  },
} as const;
