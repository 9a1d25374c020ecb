import { closeSync, openSync } from 'node:fs';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import { scanRecord } from '../record-scan.ts';
import { EXIT, guarded, reportFault } from './common.ts';

export function registerVerify(program: Command): void {
  program
    .command('verify')
    .description('check that every line of a record follows from the line before it')
    .argument('<record>', 'the record file')
    .option('--json', 'answer as JSON')
    .addHelpText(
      'after',
      '\nNames the first line that does not hold and exits 4.\n\nExample:\n  heelwright verify day.hwr',
    )
    .action((path: string, options: { json?: boolean }) =>
      guarded(options.json ?? false, () => verify(path, options.json ?? false)),
    );
}

function verify(path: string, json: boolean): void {
  let session = EMPTY_SESSION;
  const scan = scanRecordFile(path, ({ line }) => {
    session = foldLine(session, line);
  });
  if (scan.fault !== null) {
    reportFault(scan.fault, json, EXIT.failed);
    return;
  }
  if (scan.chain.next === 0) {
    reportFault(new Fault('record-line', 'line 0', 'the file is empty'), json, EXIT.failed);
    return;
  }
  const lines = scan.chain.next;
  const { head } = scan.chain;
  if (json) console.log(JSON.stringify({ holds: true, lines, head, record: session.record }));
  else console.log(`All ${lines} lines hold. Head: ${head}`);
}

/** Follows a record file from its first line. Throws `file-not-readable`. */
export function scanRecordFile(
  path: string,
  follow: (read: LineRead) => void,
): ReturnType<typeof scanRecord> {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch (error) {
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
  try {
    return scanRecord(descriptor, follow);
  } finally {
    closeSync(descriptor);
  }
}
