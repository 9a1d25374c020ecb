import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { testReport } from '#core/report/test-report.ts';
import { handCheck } from '#core/session/hand-check.ts';
import { documentOfRecord } from '#receiver/export/documents.ts';
import { exportFiles } from '#receiver/export/export-files.ts';
import { pdfOfDocument } from '#receiver/export/pdf.ts';
import { ZipFile } from '#receiver/export/zip-file.ts';
import { aWideDay } from '#tests/support/wide-day.ts';
import { writeEightHours } from './opening.ts';

export interface DocumentFigures {
  /** The report of forty shifts, six instruments and three hundred items: seconds, pages, bytes. */
  readonly wideS: number;
  readonly widePages: number;
  readonly wideBytes: number;
  /** Of eight hours of three boards: report, whole export as one ZIP, its bytes. */
  readonly reportS: number;
  readonly exportS: number;
  readonly exportBytes: number;
  /** Largest memory of the process up to here, MB. */
  readonly mostMb: number;
}

/** Documents and exports as they are made in use, one after another in this process. */
export async function measureDocuments(): Promise<DocumentFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'documents-'));
  try {
    const day = aWideDay();
    const [wideS, wide] = await timed(() =>
      pdfOfDocument(testReport(day, handCheck(day.session), [])),
    );
    const path = join(folder, 'day.hwr');
    writeEightHours(path);
    const [reportS] = await timed(() => documentOfRecord(path, 'report'));
    const out = join(folder, 'out.zip');
    const [exportS] = await timed(async () => zipped(path, out));
    return {
      wideS,
      widePages:
        Buffer.from(wide)
          .toString('latin1')
          .match(/\/Type \/Page\b/g)?.length ?? 0,
      wideBytes: wide.length,
      ...{ reportS, exportS, exportBytes: statSync(out).size },
      mostMb: process.resourceUsage().maxRSS / 1024,
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function zipped(path: string, out: string): void {
  const { files, wall } = exportFiles(path);
  const zip = new ZipFile(out, wall);
  for (const { name, fill } of files) zip.add(name, fill);
  zip.close();
}

async function timed<T>(work: () => Promise<T>): Promise<[number, T]> {
  const beganMs = performance.now();
  const value = await work();
  return [(performance.now() - beganMs) / 1000, value];
}
