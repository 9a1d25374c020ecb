import { createHash } from 'node:crypto';
import { closeSync, mkdirSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { type Exported, type ExportFile, exportFiles, sumsOf } from '../export/export-files.ts';
import { ZipFile } from '../export/zip-file.ts';
import { guarded } from './common.ts';

const HELP = `
The record is copied byte for byte. Beside it: readings, what was not used and why, heels and counts
as CSV, result and reduction as JSON with their form, the plot, a README, two scripts that check all
of it with Node or Python alone, and SHA256SUMS. A name that ends in .zip makes one file of it.

Examples:
  heelwright export day.hwr handed-over
  heelwright export day.hwr handed-over.zip`;

export function registerExport(program: Command): void {
  program
    .command('export')
    .description('a record as open files in a new folder or ZIP, each with its SHA-256')
    .argument('<record>', 'the record file')
    .argument('<out>', 'a folder, or a name ending in .zip, that is not there yet')
    .addHelpText('after', HELP)
    .action((path: string, out: string) => guarded(false, () => exportRecord(path, out)));
}

function exportRecord(path: string, out: string): void {
  const exported = exportFiles(path);
  const names = /\.zip$/i.test(out) ? zipped(exported, out) : inFolder(exported, out);
  console.log(`${names.join(', ')} in ${out}`);
}

function zipped({ files, wall }: Exported, out: string): string[] {
  const zip = new ZipFile(out, wall);
  try {
    const digests = files.map(({ name, fill }) => ({ name, sha256: zip.add(name, fill) }));
    zip.add('SHA256SUMS', (write) => write(Buffer.from(sumsOf(digests))));
    zip.close();
    return [...digests.map(({ name }) => name), 'SHA256SUMS'];
  } catch (error) {
    zip.abandon();
    rmSync(out, { force: true });
    throw error;
  }
}

function inFolder({ files }: Exported, folder: string): string[] {
  try {
    mkdirSync(folder);
  } catch (error) {
    throw new Fault('file-not-writable', folder, (error as Error).message);
  }
  const digests = files.map((file) => ({ name: file.name, sha256: written(file, folder) }));
  writeFileSync(join(folder, 'SHA256SUMS'), sumsOf(digests));
  return [...digests.map(({ name }) => name), 'SHA256SUMS'];
}

function written({ name, fill }: ExportFile, folder: string): string {
  const digest = createHash('sha256');
  const descriptor = openSync(join(folder, name), 'wx');
  try {
    fill((bytes) => {
      digest.update(bytes);
      for (let done = 0; done < bytes.length; )
        done += writeSync(descriptor, bytes, done, bytes.length - done);
    });
  } finally {
    closeSync(descriptor);
  }
  return digest.digest('hex');
}
