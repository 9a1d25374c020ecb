import type { ReductionOutput } from '../reduction/reduction-output.ts';

/** What to measure again, in words. */
export const WORTH_WHAT: Readonly<
  Record<ReductionOutput['worth']['more'][number]['what'], string>
> = {
  'next-shift': 'one more shift',
  'minute-each': 'a minute more of each reading',
  'freeboard-again': 'one freeboard again',
  'freeboards-all-again': 'all freeboards again',
};

/** Why one may stop, or not. */
export const WORTH_WHY: Readonly<Record<ReductionOutput['worth']['why'], string>> = {
  'angles-under-a-third':
    'the angles are under a third of all else: waiting buys nothing (our setting)',
  'nothing-worth-its-time': 'nothing below buys a tenth of it in an hour (our setting)',
  'worth-going-on': 'something below is worth its time',
  'few-states': 'under five states the scatter is not known well enough',
};
