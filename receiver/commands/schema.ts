import type { Command } from 'commander';
import { z } from 'zod';
import { calibrationInput } from '#core/calibration/calibration-input.ts';
import { Fault } from '#core/fault/fault.ts';
import { spotChecksInput } from '#core/hull/hull-evidence.ts';
import { hullInput } from '#core/hull/hull-input.ts';
import { hydrostaticsOutput } from '#core/hull/hydrostatics-output.ts';
import { tablesOutput } from '#core/hull/tables-output.ts';
import { loadingOutput } from '#core/limits/limits-output.ts';
import { LINE_BODIES, lineEnvelope, testOpened } from '#core/record/line.ts';
import { planInput } from '#core/reduction/plan-input.ts';
import { planOutput } from '#core/reduction/plan-output.ts';
import { reductionOutput } from '#core/reduction/reduction-output.ts';
import { rollHistory } from '#core/reduction/roll-history.ts';
import { rollOutput } from '#core/reduction/roll-output.ts';
import { testInput } from '#core/reduction/test-input.ts';
import { certificate, mounting } from '#core/sample/certificate.ts';
import { streamItem } from '#core/sample/stream-item.ts';
import { loadingInput } from '#core/stability/loading-input.ts';
import { ruleSet } from '#core/stability/rule-set.ts';
import { steadyOutput } from '#core/steadiness/recording-output.ts';
import { fromReceiver, fromStation } from '#core/wire/link-message.ts';
import { fromScreen } from '#core/wire/screen-message.ts';
import { guarded } from './common.ts';
import { correctionFile } from './correct.ts';

/** Every input and message that has a form, by the name a person asks for it with. */
const SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  test: testOpened,
  plan: planInput,
  'plan-forecast': planOutput,
  reduce: testInput,
  reduction: reductionOutput,
  hull: hullInput,
  'spot-checks': spotChecksInput,
  hydrostatics: hydrostaticsOutput,
  'hydrostatics-tables': tablesOutput,
  loading: loadingInput,
  rules: ruleSet,
  stability: loadingOutput,
  steady: steadyOutput,
  roll: rollOutput,
  'roll-history': rollHistory,
  calibration: calibrationInput,
  certificate,
  correction: correctionFile,
  mounting,
  'stream-item': streamItem,
  'from-station': fromStation,
  'from-receiver': fromReceiver,
  'from-screen': fromScreen,
  line: lineEnvelope,
  ...Object.fromEntries(
    Object.entries(LINE_BODIES).map(([kind, schema]) => [`line-${kind}`, schema]),
  ),
};

export function registerSchema(program: Command): void {
  program
    .command('schema')
    .description('print the JSON Schema of an input or message')
    .argument('[name]', 'which one; without it the names are listed')
    .option('--json', 'list the names as JSON')
    .addHelpText('after', '\nExample:\n  heelwright schema test')
    .action((name: string | undefined, options: { json?: boolean }) =>
      guarded(options.json ?? false, () => {
        if (name === undefined) {
          const names = Object.keys(SCHEMAS);
          console.log(options.json ? JSON.stringify(names) : names.join('\n'));
        } else console.log(JSON.stringify(jsonSchema(name), null, 2));
      }),
    );
}

function jsonSchema(name: string): unknown {
  const schema = Object.hasOwn(SCHEMAS, name) ? SCHEMAS[name] : undefined;
  if (schema === undefined)
    throw new Fault('input-shape', 'schema', `no schema is called ${name.slice(0, 60)}`);
  return z.toJSONSchema(schema, { unrepresentable: 'any' });
}
