import type { PlanOutput } from '#core/reduction/plan-output.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';
import { adviceWords } from './reduce-float-words.ts';
import { LAST_WORDS } from './reduce-words.ts';

/** A plan as a person reads it beside the gangway. */
export function planWords(plan: PlanOutput): string[] {
  return [
    plan.plan,
    '',
    'Before the first shift',
    ...plan.beforeTheFirstShift.map((words) => `  ${words}`),
    '',
    'Stop',
    ...plan.stopRules.map((words) => `  ${words}`),
    '',
    ...(plan.safety.length === 0 ? [] : [...plan.safety, '']),
    ...shiftWords(plan),
    '',
    ...expectedWords(plan),
    '',
    ...adviceWords(plan.advice),
    LAST_WORDS,
  ];
}

function shiftWords({ shifts }: PlanOutput): string[] {
  const instruments = [
    ...new Set(shifts.flatMap((shift) => shift.deflections.map((one) => one.instrument))),
  ];
  return [
    'Predicted from the first state, by the guess of GM (fluid)',
    ...tableWords([
      [
        'State',
        'moment, t·m',
        'heel, deg',
        'if stiff to if tender',
        'stop at, deg',
        ...instruments.map((instrument) => `${instrument}, mm`),
      ],
      ...shifts.map((shift) => [
        String(shift.state),
        significantWords(shift.heelingMomentTM, 5),
        fixedWords(shift.heelDeg, 2),
        `${fixedWords(shift.heelIfStiffDeg, 2)} to ${
          shift.heelIfTenderDeg === null ? 'over' : fixedWords(shift.heelIfTenderDeg, 2)
        }`,
        shift.heelDeg === 0 ? '-' : fixedWords(shift.stopDeg, 2),
        ...instruments.map((instrument) => {
          const own = shift.deflections.find((one) => one.instrument === instrument);
          return own === undefined ? '-' : fixedWords(own.mm, 0);
        }),
      ]),
    ]),
  ];
}

function expectedWords({ gmM, kgM, budget }: PlanOutput): string[] {
  return [
    'To be expected',
    ...tableWords([
      ['GM (fluid), as guessed', measuredWords(gmM.value, gmM.halfWidth95, 'm')],
      ...(kgM === null
        ? []
        : [['KG (of fluid GM)', measuredWords(kgM.value, kgM.halfWidth95, 'm')]]),
    ]),
    'What will make it uncertain (one standard uncertainty, mm)',
    ...tableWords(budget.map((row) => [row.cause, significantWords(row.kgMm ?? row.gmMm, 3)])),
  ];
}
