import { z } from 'zod';
import { spacesFrom } from '#core/condition/space.ts';
import { spaceTable } from '#core/condition/space-table.ts';
import type { Hull } from '#core/hull/hull.ts';
import { limitingKg } from '#core/limits/limiting-kg.ts';
import { stabilityBooklet } from '#core/report/booklet.ts';
import type { BookletLimit } from '#core/report/booklet-parts.ts';
import type { Block } from '#core/report/document.ts';
import { type LoadingInput, loadingOf } from '#core/stability/loading-input.ts';
import type { RuleSet } from '#core/stability/rule-set.ts';
import type { StabilityOutput } from '#core/stability/stability-output.ts';
import { pdfOfDocument } from '../export/pdf.ts';
import { MACHINE_CLOCK } from '../machine-clock.ts';
import { inputFromFile } from './common.ts';

export interface BookletMade {
  readonly input: LoadingInput;
  readonly hull: Hull;
  readonly sets: readonly RuleSet[];
  readonly answer: StabilityOutput;
}

export interface BookletWishes {
  readonly revision: number;
  /** `revision.json` of the booklet before. */
  readonly against?: string;
}

/** Displacements the limits are given at, evenly from the lightest condition to the heaviest. */
const LIMITS_AT = 5;
/** Conditions so much alike have one limit, t. */
const ALIKE_T = 0.01;

/** The stability booklet as PDF. Throws what reading `against` throws, `text-not-printable`. */
export async function bookletOf(
  { input, hull, sets, answer }: BookletMade,
  { revision, against }: BookletWishes,
): Promise<Uint8Array> {
  return pdfOfDocument(
    stabilityBooklet({
      ...{ input, answer, revision },
      spaces: [...spacesFrom(input.spaces).values()].map(spaceTable),
      limits: limitsOf(input, hull, sets, answer),
      earlier: against === undefined ? null : earlierFrom(against),
      wall: new Date(MACHINE_CLOCK.wallMs()).toISOString(),
    }),
  );
}

/** The form of our own attachment: only what is compared is looked at. */
function earlierFrom(path: string): Block[] {
  const block = z.looseObject({ kind: z.string() });
  return inputFromFile(z.array(block).max(5000), path) as unknown as Block[];
}

function limitsOf(
  input: LoadingInput,
  hull: Hull,
  sets: readonly RuleSet[],
  answer: StabilityOutput,
): BookletLimit[] {
  const [ask] = loadingOf(input, hull).questions;
  if (ask === undefined) return [];
  const masses = answer.conditions.map(({ displacementT }) => displacementT);
  const [least, most] = [Math.min(...masses), Math.max(...masses)];
  const trims = answer.conditions.map(({ trimM }) => trimM).toSorted((a, b) => a - b);
  const trimM = trims[Math.floor(trims.length / 2)] ?? 0;
  const { loaded, ...always } = ask;
  const question = {
    ask: always,
    slack: loaded.liquids,
    lightshipT: input.lightship.mass.value,
    sets,
  };
  const count = most - least < ALIKE_T ? 1 : LIMITS_AT;
  return Array.from({ length: count }, (_, k) => {
    const displacementT = least + ((most - least) * k) / Math.max(1, count - 1);
    const { kgM, governing } = limitingKg(question, displacementT, trimM);
    return {
      ...{ displacementT, trimM, kgM },
      governing: governing.map(({ printed, words }) => `${printed}: ${words}`),
    };
  });
}
