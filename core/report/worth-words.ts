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

/** Whether the rest of the eight movements may be left out (IS Code 8.4.1.2); nothing while too few are read. */
export const MAY_OMIT: Readonly<Partial<Record<ReductionOutput['mayOmit'], string>>> = {
  'not-straight': 'No movement of the eight may be left out: the plot is not straight.',
  'not-allowed':
    'No movement of the eight may be left out: no skip rule for it is switched on (IS Code 8.4.1.2).',
  'movement-eight': 'Movement eight may be left out, by the rule that is switched on.',
  'all-that-is-left': 'The second zero check may be left out, by the rule that is switched on.',
};
