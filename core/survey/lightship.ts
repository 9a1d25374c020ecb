import { Fault } from '../fault/fault.ts';
import type { Advice } from '../quantity/advice.ts';
import { checkPositive } from '../quantity/check.ts';
import {
  type Contribution,
  type Uncertain,
  uncertainFromContributions,
} from '../quantity/uncertainty.ts';
import {
  type MassMoments,
  momentsAt,
  momentsCentre,
  momentsTimes,
  momentsTogether,
  NO_MASS,
} from './mass-moments.ts';
import { openMatters, surveyAdvice } from './survey-advice.ts';
import type { SurveyInput, SurveyItem } from './survey-input.ts';

/** One independent error: what one standard uncertainty of it adds to the whole, all together and with sign. */
export interface MassCause extends MassMoments {
  readonly cause: string;
  readonly degreesOfFreedom: number;
}

export interface Lightship {
  readonly massT: Uncertain;
  readonly lcgM: Uncertain;
  readonly tcgM: Uncertain;
  readonly vcgM: Uncertain;
  /** Each cause's own standard uncertainty of mass (t) and VCG (m), the largest of VCG first. */
  readonly budget: readonly {
    readonly cause: string;
    readonly massT: number;
    readonly lcgM: number;
    readonly tcgM: number;
    readonly vcgM: number;
  }[];
  /** Something is still to be fitted, or what lightship means is not agreed. */
  readonly provisional: boolean;
  /** Masses taken off, put on and still to come, t. */
  readonly deductedT: number;
  readonly addedT: number;
  readonly toBeFittedT: number;
  readonly advice: readonly Advice[];
}

const SIGN: Readonly<Record<SurveyItem['kind'], number>> = {
  deduct: -1,
  add: 1,
  relocate: 0,
  'to-be-fitted': 1,
  person: -1,
  'own-gear': -1,
  'test-weight': -1,
  liquid: -1,
};

/**
 * From the vessel as inclined to her lightship by the items of the survey. Causes come through as
 * one each: a draught read wrongly moves mass and VCG together, a scale all it weighed. A test
 * weight's own mass may be a cause of KG already: give it the same name (`mass of NAME`) there and
 * it is one error here. Throws `input-contradiction`, `input-range`.
 */
export function lightshipFrom(
  asInclined: MassMoments,
  asInclinedCauses: readonly MassCause[],
  survey: SurveyInput,
): Lightship {
  let whole = asInclined;
  const causes: MassCause[] = [...asInclinedCauses];
  for (const item of survey.items) {
    whole = momentsTogether([whole, changeOf(item)]);
    causes.push(...causesOf(item));
  }
  checkPositive(whole.massT, 'lightship mass, t');
  const { massT, lcgM, tcgM, vcgM, budget } = uncertainTotals(whole, causes);
  const of = (...kinds: SurveyItem['kind'][]) =>
    survey.items.filter((one) => kinds.includes(one.kind)).reduce((all, one) => all + one.massT, 0);
  const deductedT = of('deduct', 'own-gear', 'test-weight', 'person');
  const toBeFittedT = of('to-be-fitted');
  const addedT = of('add') + toBeFittedT;
  return {
    massT,
    lcgM,
    tcgM,
    vcgM,
    budget,
    provisional: toBeFittedT > 0 || openMatters(survey).length > 0,
    deductedT,
    addedT,
    toBeFittedT,
    advice: surveyAdvice(survey, whole.massT, addedT, of('deduct')),
  };
}

function changeOf(item: SurveyItem): MassMoments {
  if (item.kind !== 'relocate')
    return momentsTimes(momentsAt(item.massT, item.at), SIGN[item.kind]);
  if (item.to === undefined) {
    throw new Fault('input-contradiction', `item ${item.item}`, 'relocated, and not said where to');
  }
  const away = momentsTimes(momentsAt(item.massT, item.at), -1);
  return momentsTogether([away, momentsAt(item.massT, item.to)]);
}

/** Errors of an item: its own mass, the scale it shares, and each coordinate of its place. */
function causesOf(item: SurveyItem): MassCause[] {
  const change = changeOf(item);
  const degreesOfFreedom = Number.POSITIVE_INFINITY;
  const own = item.massUncertaintyT / item.massT;
  const share = item.massScale?.uncertaintyShare ?? 0;
  // a relocated thing has two places, a thing put on or off one
  const places = item.massT * item.placeUncertaintyM * (item.kind === 'relocate' ? Math.SQRT2 : 1);
  return [
    { cause: `mass of ${item.item}`, degreesOfFreedom, ...momentsTimes(change, own) },
    ...(share === 0
      ? []
      : [
          {
            cause: `scale of ${item.massScale!.name}`,
            degreesOfFreedom,
            ...momentsTimes(change, share),
          },
        ]),
    ...(places === 0
      ? []
      : (['xTM', 'yTM', 'zTM'] as const).map((along) => ({
          cause: `place of ${item.item}, ${along[0]}`,
          degreesOfFreedom,
          ...NO_MASS,
          [along]: places,
        }))),
  ].filter((one) => one.massT !== 0 || one.xTM !== 0 || one.yTM !== 0 || one.zTM !== 0);
}

/**
 * Mass and centres with their uncertainties: parts of one name that come from one error add with
 * their signs, unless they are said to be independent parts (`part` after the name).
 */
function uncertainTotals(
  whole: MassMoments,
  causes: readonly MassCause[],
): Pick<Lightship, 'massT' | 'lcgM' | 'tcgM' | 'vcgM' | 'budget'> {
  const errors = new Map<string, MassCause>();
  for (const one of causes) {
    const before = errors.get(one.cause);
    errors.set(
      one.cause,
      before === undefined ? one : { ...before, ...momentsTogether([before, one]) },
    );
  }
  const figures = (one: MassMoments) => {
    const centre = momentsCentre(one);
    return { massT: one.massT, lcgM: centre.xM, tcgM: centre.yM, vcgM: centre.zM };
  };
  const middle = figures(whole);
  const names = ['massT', 'lcgM', 'tcgM', 'vcgM'] as const;
  const rows = [...errors.values()].map((one) => {
    const up = figures(momentsTogether([whole, one]));
    const down = figures(momentsTogether([whole, momentsTimes(one, -1)]));
    const half = (name: (typeof names)[number]) => Math.abs(up[name] - down[name]) / 2;
    return {
      cause: one.cause.replace(PART, ''),
      degreesOfFreedom: one.degreesOfFreedom,
      massT: half('massT'),
      lcgM: half('lcgM'),
      tcgM: half('tcgM'),
      vcgM: half('vcgM'),
    };
  });
  const merged = mergedRows(rows);
  const uncertain = (name: (typeof names)[number]): Uncertain =>
    uncertainFromContributions(
      middle[name],
      merged.length === 0
        ? [
            {
              cause: 'none stated',
              standardUncertainty: 0,
              degreesOfFreedom: Number.POSITIVE_INFINITY,
            },
          ]
        : merged.map(
            (row): Contribution => ({
              cause: row.cause,
              standardUncertainty: row[name],
              degreesOfFreedom: row.degreesOfFreedom,
            }),
          ),
    );
  return {
    massT: uncertain('massT'),
    lcgM: uncertain('lcgM'),
    tcgM: uncertain('tcgM'),
    vcgM: uncertain('vcgM'),
    budget: merged
      .map(({ degreesOfFreedom: _, ...row }) => row)
      .sort((left, right) => right.vcgM - left.vcgM),
  };
}

/** Independent parts of one cause carry its name and a number: `freeboards, part 2`. */
const PART = /, part \d+$/;

type Row = Lightship['budget'][number] & { readonly degreesOfFreedom: number };

function mergedRows(rows: readonly Row[]): Row[] {
  const merged = new Map<string, Row>();
  for (const row of rows) {
    const before = merged.get(row.cause);
    merged.set(
      row.cause,
      before === undefined
        ? row
        : {
            ...before,
            massT: Math.hypot(before.massT, row.massT),
            lcgM: Math.hypot(before.lcgM, row.lcgM),
            tcgM: Math.hypot(before.tcgM, row.tcgM),
            vcgM: Math.hypot(before.vcgM, row.vcgM),
          },
    );
  }
  return [...merged.values()];
}
