import type { Command } from 'commander';
import { z } from 'zod';
import { uncertainHalfWidth95 } from '#core/numerics/coverage.ts';
import type { Advice } from '#core/quantity/advice.ts';
import { testOpened } from '#core/record/line.ts';
import { forecastPlan, type PlanForecast } from '#core/reduction/plan-forecast.ts';
import { type PlanInput, planInput } from '#core/reduction/plan-input.ts';
import { planNearTheWater } from '#core/reduction/plan-near-water.ts';
import type { PlanOutput } from '#core/reduction/plan-output.ts';
import { adviceOut } from '#core/reduction/reduction-of-float.ts';
import { paperSheet, planLetter } from '#core/report/plan-documents.ts';
import { safetyWords } from '#core/report/safety-words.ts';
import { planOfTest } from '#core/session/plan-of-test.ts';
import { BEFORE_THE_FIRST_SHIFT, STOP_RULES } from '#core/shift/shift-rules.ts';
import { pdfOfDocument } from '../export/pdf.ts';
import { hullFromFile } from '../hull-file.ts';
import { MACHINE_CLOCK } from '../machine-clock.ts';
import { fileBeside } from '../test-hull.ts';
import { guarded, inputFromFile, writeNewFile } from './common.ts';
import { planWords } from './plan-words.ts';

const HELP = `
The plan is JSON (heelwright schema plan), or the test that receive opens (heelwright schema test).
Answers: heel and deflection before each shift, the heel at which to stop, the uncertainty of KG to
be expected, and what is to be thought over before the first weight moves.

Exit codes: 0 done, 2 wrong usage, 3 the plan is refused (code, where, what).

Example:
  heelwright plan plan.json --json`;

interface PlanOptions {
  readonly json?: boolean;
  readonly letter?: string;
  readonly sheet?: string;
}

/** `plan TEST`: what a test will show, before the first weight moves. */
export function registerPlan(program: Command): void {
  program
    .command('plan')
    .description('predict heels, deflections and the uncertainty of KG before the first shift')
    .argument('<plan>', 'JSON of a plan or of a test')
    .option('--json', 'answer as JSON (heelwright schema plan-forecast)')
    .option('--letter <file>', 'write plan and notification as a PDF; never over another file')
    .option('--sheet <file>', 'write the paper sheet with expected values as a PDF')
    .addHelpText('after', HELP)
    .action((path: string, options: PlanOptions) =>
      guarded(options.json ?? false, async () => {
        const plan = planFromFile(path);
        const forecast = forecastPlan(plan);
        const wet = await nearTheWaterOf(plan, forecast, path);
        const output = planOut(plan, { ...forecast, advice: [...wet, ...forecast.advice] });
        const wall = new Date(MACHINE_CLOCK.wallMs()).toISOString();
        const planned = { plan, forecast: output, wall };
        if (options.letter !== undefined)
          writeNewFile(options.letter, await pdfOfDocument(planLetter(planned)));
        if (options.sheet !== undefined)
          writeNewFile(options.sheet, await pdfOfDocument(paperSheet(planned)));
        console.log(options.json ? JSON.stringify(output, null, 2) : planWords(output).join('\n'));
      }),
    );
}

/** A plan of its own, or the plan within a test of the day. */
function planFromFile(path: string): PlanInput {
  const written = inputFromFile(z.record(z.string(), z.unknown()), path);
  if (!('particulars' in written)) return inputFromFile(planInput, path);
  return planOfTest(inputFromFile(testOpened, path));
}

/** Deck edge and openings at twice the planned heel, where a hull is given. */
async function nearTheWaterOf(
  plan: PlanInput,
  forecast: PlanForecast,
  path: string,
): Promise<Advice[]> {
  if (plan.hull === undefined) return [];
  const hull = await hullFromFile(fileBeside(path, plan.hull.file));
  const volumeM3 = (1000 * plan.displacementT.value) / plan.hull.densityKgM3;
  const trimRad = Math.atan(plan.hull.trimSlope ?? 0);
  return planNearTheWater(hull, forecast, { volumeM3, trimRad });
}

function planOut(plan: PlanInput, forecast: PlanForecast): PlanOutput {
  const { gmM, kgM, shifts, budget, safety, advice } = forecast;
  return {
    heelwrightPlanForecast: 1,
    plan: plan.name,
    gmM: { value: gmM.value, halfWidth95: uncertainHalfWidth95(gmM) },
    kgM: kgM === null ? null : { value: kgM.value, halfWidth95: uncertainHalfWidth95(kgM) },
    budget: budget.map(({ cause, gm, kg }) => ({
      cause,
      gmMm: 1000 * gm,
      kgMm: kgM === null || kg === null ? null : 1000 * kg,
    })),
    shifts: shifts.map(({ verticalMomentTM: _, deflections, ...shift }) => ({
      ...shift,
      deflections: [...deflections],
    })),
    safety: safety.map(safetyWords),
    advice: adviceOut(advice),
    beforeTheFirstShift: [...BEFORE_THE_FIRST_SHIFT],
    stopRules: [...STOP_RULES],
  };
}
