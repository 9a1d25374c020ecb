import { closeSync, openSync } from 'node:fs';
import { type Command, InvalidArgumentError } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import type { ChainHead } from '#core/record/chain.ts';
import { KnownHeadCheck } from '#core/record/known-head.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { ReceiptCheck, receiptOf, receiptOfText, receiptText } from '#core/record/receipt.ts';
import { SignedCheck } from '#core/record/signed-by-key.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { scanRecord } from '../record-scan.ts';
import { EXIT, guarded, reportFault } from './common.ts';
import { verifyExcerpt } from './verify-excerpt.ts';

const HEAD = /^[0-9a-f]{64}$/;

interface VerifyOptions {
  readonly json?: boolean;
  readonly head?: string;
  readonly lines?: number;
  readonly receipt?: string;
  readonly excerpt?: boolean;
}

export function registerVerify(program: Command): void {
  program
    .command('verify')
    .description('check that every line of a record follows from the line before it')
    .argument('<record>', 'the record file')
    .option('--head <hex>', 'a head known from elsewhere, such as a receipt', headOf)
    .option('--lines <number>', 'how many lines that head was for (default: all)', linesOf)
    .option(
      '--receipt <words>',
      'a receipt, as "812 word word ..." (a word: its first four letters do)',
    )
    .option('--excerpt', 'the file is lines.jsonl of a report: lines without their samples')
    .option('--json', 'answer as JSON')
    .addHelpText(
      'after',
      '\nNames the first line that does not hold and exits 4. A line changed so that it can still be' +
        '\nread shows in the line after it. Receipts and signatures in the record are held to its lines.' +
        '\nLines taken off the end, and an end written anew, show only against what is kept outside the' +
        '\nrecord: a receipt, or a head with its number of lines.' +
        '\n\nExamples:\n  heelwright verify day.hwr\n  heelwright verify day.hwr --lines 812 --head 5f0c...' +
        '\n  heelwright verify day.hwr --receipt "812 harbor ladder ..."',
    )
    .action((path: string, options: VerifyOptions) =>
      guarded(options.json ?? false, () =>
        options.excerpt === true
          ? verifyExcerpt(path, options.json ?? false)
          : verify(path, options),
      ),
    );
}

function verify(path: string, options: VerifyOptions): void {
  const json = options.json ?? false;
  if (options.lines !== undefined && options.head === undefined)
    throw new Fault('input-shape', '--lines', 'a number of lines says nothing without --head');
  let session = EMPTY_SESSION;
  const known =
    options.head === undefined || options.lines === undefined
      ? null
      : new KnownHeadCheck({ head: options.head, lines: options.lines });
  const receipt =
    options.receipt === undefined ? null : new ReceiptCheck(receiptOfText(options.receipt));
  const signed = new SignedCheck();
  const scan = scanRecordFile(path, ({ line }) => {
    session = foldLine(session, line);
    known?.follow(line);
    receipt?.follow(line);
    signed.follow(line);
  });
  const fault = scan.fault ?? endFault(scan.chain, { known, head: options.head, receipt });
  if (fault !== null) {
    reportFault(fault, json, EXIT.failed);
    return;
  }
  const lines = scan.chain.next;
  const { head } = scan.chain;
  if (json)
    console.log(
      JSON.stringify({
        holds: true,
        lines,
        head,
        record: session.record,
        knownLines: options.head === undefined ? null : (options.lines ?? lines),
        receiptHolds: options.receipt === undefined ? null : true,
        receipt: receiptText(receiptOf({ lines, head })),
        signatures: signaturesOf(session),
      }),
    );
  else console.log([...holdingWords(lines, head, options), ...signatureWords(session)].join('\n'));
}

interface Outside {
  readonly known: KnownHeadCheck | null;
  readonly head: string | undefined;
  readonly receipt: ReceiptCheck | null;
}

function endFault(chain: ChainHead, { known, head, receipt }: Outside): Fault | null {
  if (chain.next === 0) return new Fault('record-line', 'line 0', 'the file is empty');
  try {
    const check =
      known ?? (head === undefined ? null : new KnownHeadCheck({ head, lines: chain.next }));
    check?.end(chain);
    receipt?.end(chain);
    return null;
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
}

function holdingWords(lines: number, head: string, options: VerifyOptions): string[] {
  const words = [
    `All ${lines} lines hold. Head: ${head}`,
    `As a receipt: ${receiptText(receiptOf({ lines, head }))}`,
  ];
  if (options.receipt !== undefined) words.push('The receipt is of this record.');
  if (options.head === undefined && options.receipt === undefined)
    return [
      ...words,
      'Whether lines are missing at the end, the record alone cannot say: hold it against a receipt',
      '(--receipt) or a head known from elsewhere (--head, --lines).',
    ];
  if (options.head === undefined) return words;
  const known = options.lines ?? lines;
  return [...words, `The first ${known} lines are those of the head that was given.`];
}

function signaturesOf({ people }: SessionState): {
  seal: number;
  author: string;
  role: string;
  publicKey: string;
}[] {
  return people.seals.flatMap(({ written, signatures }) =>
    signatures.map((one) => ({
      seal: written.line,
      author: one.written.author,
      role: one.written.role,
      publicKey: one.publicKey,
    })),
  );
}

/** Whose key it is, the record cannot say: it is for the reader to compare. */
function signatureWords(session: SessionState): string[] {
  return signaturesOf(session).map(
    ({ seal, author, role, publicKey }) =>
      `Sealed at line ${seal}, signed by ${author} (${role}) with key ${publicKey}.`,
  );
}

function headOf(text: string): string {
  const head = text.toLowerCase();
  if (!HEAD.test(head)) throw new InvalidArgumentError('64 hexadecimal digits.');
  return head;
}

function linesOf(text: string): number {
  const lines = Number(text);
  if (!/^\d{1,15}$/.test(text) || lines < 1)
    throw new InvalidArgumentError('a whole number from 1.');
  return lines;
}

/** Follows a record file from its first line. Throws `file-not-readable`. */
export function scanRecordFile(
  path: string,
  follow: (read: LineRead, bytes: Uint8Array) => void,
  endBytes?: number,
): ReturnType<typeof scanRecord> {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch (error) {
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
  try {
    return scanRecord(descriptor, follow, endBytes);
  } finally {
    closeSync(descriptor);
  }
}
