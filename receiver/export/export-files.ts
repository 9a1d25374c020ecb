import { basename } from 'node:path';
import { z } from 'zod';
import { receiptOf, receiptText } from '#core/record/receipt.ts';
import { reductionOutput } from '#core/reduction/reduction-output.ts';
import { csvTable } from '#core/report/csv.ts';
import { readingsTable, wordsTable } from '#core/report/day-tables.ts';
import { exportReadme, VERIFY_WITH_NODE, VERIFY_WITH_PYTHON } from '#core/report/export-texts.ts';
import { figureLine } from '#core/report/figure-line.ts';
import type { SampleBlock, StreamOpened } from '#core/sample/stream-item.ts';
import { scanRecordFile } from '../commands/verify.ts';
import { dayOfFile } from './day-of-file.ts';
import { readWhole } from './read-whole.ts';
import { followSmoothed } from './traces-of-record.ts';

/** Streams whose counts are written out; every further one stands in the record. */
const MOST_STREAMS = 40;

/** One file of an export: its name, and how its bytes come about. */
export interface ExportFile {
  readonly name: string;
  readonly fill: (write: (bytes: Uint8Array) => void) => void;
}

export interface Exported {
  readonly wall: string;
  readonly files: readonly ExportFile[];
}

/** The open files a record gives, all following from its bytes. Throws what reading it throws. */
export function exportFiles(path: string): Exported {
  const { day } = dayOfFile(path);
  const { session, result, reduction, head, program } = day;
  const record = basename(path).replace(/(\.hwr)?$/i, '.hwr');
  const text = (name: string, content: string): ExportFile => ({
    name,
    fill: (write) => write(Buffer.from(content)),
  });
  const told = { record, program, receipt: receiptText(receiptOf(head)) };
  return {
    wall: day.lastWall,
    files: [
      { name: record, fill: (write) => readWhole(path, write) },
      text('readings.csv', readingsTable(session)),
      text('words.csv', wordsTable(session)),
      { name: 'heels.csv', fill: (write) => heels(path, write) },
      ...streamsOf(path).map((stream, k) => ({
        name: `counts-${k + 1}.csv`,
        fill: (write: (bytes: Uint8Array) => void) => counts(path, stream, write),
      })),
      text('result.json', `${JSON.stringify(result, null, 2)}\n`),
      text('reduction.json', `${JSON.stringify(reduction.reduction, null, 2)}\n`),
      text(
        'reduction.schema.json',
        `${JSON.stringify(z.toJSONSchema(reductionOutput, { unrepresentable: 'any' }), null, 2)}\n`,
      ),
      text('plot-line.svg', `${figureLine(result)}\n`),
      text('README.txt', exportReadme({ ...told, vessel: session.test?.vessel ?? 'no vessel' })),
      text('verify.mjs', VERIFY_WITH_NODE),
      text('verify.py', VERIFY_WITH_PYTHON),
    ],
  };
}

/** Digests as `sha256sum` writes and reads them. */
export function sumsOf(
  digests: readonly { readonly name: string; readonly sha256: string }[],
): string {
  return digests.map(({ name, sha256 }) => `${sha256}  ${name}\n`).join('');
}

type Write = (bytes: Uint8Array) => void;

function rowsOf(write: Write, header: readonly string[]) {
  write(Buffer.from(csvTable(header, [])));
  const skip = csvTable(header, []).length;
  return (rows: readonly (readonly (string | number | null)[])[]) =>
    write(Buffer.from(csvTable(header, rows).slice(skip)));
}

function heels(path: string, write: Write): void {
  const rows = rowsOf(write, ['instrument', 'receiverS', 'heelDeg']);
  followSmoothed(path, ({ instrument, atS, heelDeg }) =>
    rows(atS.map((second, k) => [instrument, second, heelDeg[k] ?? null])),
  );
}

function streamsOf(path: string): StreamOpened[] {
  const streams: StreamOpened[] = [];
  scanRecordFile(path, ({ line }) => {
    if (line.kind === 'stream-opened' && streams.length < MOST_STREAMS) streams.push(line.body);
  });
  return streams;
}

function counts(path: string, stream: StreamOpened, write: Write): void {
  const named = stream.channels.map(
    (channel, k) => `${k} ${channel.instrument} ${channel.quantity}`,
  );
  const rows = rowsOf(write, ['block', 'sequence', 'boardUs', ...named]);
  scanRecordFile(path, ({ line }) => {
    if (line.kind === 'samples' && line.body.stream === stream.stream)
      rows(blockRows(line.body, named.length));
  });
}

function blockRows(block: SampleBlock, channels: number): (number | null)[][] {
  let sequence = block.firstSequence;
  let boardUs = block.firstBoardUs;
  return block.stepUs.map((stepUs, k) => {
    boardUs += stepUs;
    if (k > 0) sequence += block.stepSequence?.[k] ?? 1;
    return [
      block.number,
      sequence,
      boardUs,
      ...Array.from({ length: channels }, (_, channel) => block.columns[channel]?.[k] ?? null),
    ];
  });
}
