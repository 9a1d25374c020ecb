import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { readingsTable, wordsTable } from '#core/report/day-tables.ts';
import { resultOfSession } from '#core/session/result.ts';
import { nodeSha256Hex } from '../node-digest.ts';
import { guarded } from './common.ts';
import { sessionFromFile } from './replay.ts';

const HELP = `
The record is copied byte for byte. Beside it: readings.csv, words.csv (what was not used and why,
remarks, objections, answers), result.json, and SHA256SUMS, which \`sha256sum -c SHA256SUMS\` checks.

Example:
  heelwright export day.hwr handed-over`;

export function registerExport(program: Command): void {
  program
    .command('export')
    .description('a record as open files in a new folder, each with its SHA-256')
    .argument('<record>', 'the record file')
    .argument('<folder>', 'a folder that is not there yet')
    .addHelpText('after', HELP)
    .action((path: string, folder: string) => guarded(false, () => exportRecord(path, folder)));
}

function exportRecord(path: string, folder: string): void {
  const session = sessionFromFile(path);
  try {
    mkdirSync(folder);
  } catch (error) {
    throw new Fault('file-not-writable', folder, (error as Error).message);
  }
  copyFileSync(path, join(folder, basename(path)));
  writeFileSync(join(folder, 'readings.csv'), readingsTable(session));
  writeFileSync(join(folder, 'words.csv'), wordsTable(session));
  const result = JSON.stringify(resultOfSession(session), null, 2);
  writeFileSync(join(folder, 'result.json'), `${result}\n`);
  const files = [basename(path), 'readings.csv', 'words.csv', 'result.json'];
  const sums = files.map((file) => `${nodeSha256Hex(readFileSync(join(folder, file)))}  ${file}\n`);
  writeFileSync(join(folder, 'SHA256SUMS'), sums.join(''));
  console.log(`${[...files, 'SHA256SUMS'].join(', ')} in ${folder}`);
}
