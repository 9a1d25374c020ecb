import { isMainThread } from 'node:worker_threads';
import { Command, CommanderError } from 'commander';
import { registerCalibrate } from './commands/calibrate.ts';
import { EXIT } from './commands/common.ts';
import { registerCorrect } from './commands/correct.ts';
import { registerDemo } from './commands/demo.ts';
import { registerExport } from './commands/export.ts';
import { registerHydrostatics } from './commands/hydrostatics.ts';
import { registerImport } from './commands/import.ts';
import { registerPlan } from './commands/plan.ts';
import { registerReceive } from './commands/receive.ts';
import { registerReduce } from './commands/reduce.ts';
import { registerReplay } from './commands/replay.ts';
import { registerReport } from './commands/report.ts';
import { registerRoll } from './commands/roll.ts';
import { registerSchema } from './commands/schema.ts';
import { registerStability } from './commands/stability.ts';
import { registerSteady } from './commands/steady.ts';
import { registerVerify } from './commands/verify.ts';
import { readsStrangersFile, runConfined } from './confined.ts';
import { PROGRAM_NAME, programVersion } from './program.ts';

/** Who read our words went away (a closed pager); what we do goes on. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const program = new Command(PROGRAM_NAME)
  .description('inclining test of a working vessel: sensors, record, reduction, screen')
  .version(programVersion())
  .exitOverride()
  .showHelpAfterError()
  .addHelpText(
    'after',
    '\nOn the board side: heelwright log, heelwright ports.' +
      '\nExit codes: 0 done, 2 wrong usage, 3 input refused, 4 a check did not hold.',
  );

registerDemo(program);
registerReceive(program);
registerPlan(program);
registerHydrostatics(program);
registerStability(program);
registerReduce(program);
registerCalibrate(program);
registerSteady(program);
registerRoll(program);
registerReplay(program);
registerVerify(program);
registerExport(program);
registerReport(program);
registerImport(program);
registerCorrect(program);
registerSchema(program);
for (const command of program.commands) command.exitOverride();

if (isMainThread && readsStrangersFile(process.argv.slice(2))) await runConfined();
else
  try {
    await program.parseAsync();
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.usage;
  }
