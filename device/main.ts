import { Command } from 'commander';
import { registerLog } from './commands/log.ts';
import { registerPorts } from './commands/ports.ts';

/** Who read our words went away (a closed pager); what we do goes on. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

/** The board side: what runs beside the boards. */
const program = new Command('heelwright')
  .description('Heelwright, the board side: reads the sensors of an inclining test')
  .showHelpAfterError('(heelwright --help says more)');
registerLog(program);
registerPorts(program);
// Wrong usage ends with 2, as for every command.
program.exitOverride((error) => {
  process.exit(error.exitCode === 0 ? 0 : 2);
});
for (const command of program.commands) {
  command.exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : 2));
}
await program.parseAsync();
