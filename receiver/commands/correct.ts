import { type Command, InvalidArgumentError } from 'commander';
import type { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { correctableFields } from '#core/record/correctable.ts';
import { correction } from '#core/record/correction.ts';
import { fieldWords } from '#core/record/field-words.ts';
import type { Role } from '#core/record/line.ts';
import { certificate } from '#core/sample/certificate.ts';
import { lineInForce } from '#core/session/fold-corrections.ts';
import { issuesOfSession } from '#core/session/issues.ts';
import type { SessionState } from '#core/session/session.ts';
import { appendChange, type ChangeAct } from '../changes.ts';
import { LineFollowers } from '../line-followers.ts';
import { continuedClock, MACHINE_CLOCK } from '../machine-clock.ts';
import { programVersion } from '../program.ts';
import { RecordFile } from '../record-file.ts';
import { guarded, inputFromFile } from './common.ts';
import { issueWords } from './reduce-record-words.ts';
import { sessionFromFile } from './replay.ts';

/** What `--changes` reads: a correction whose reason is given beside it. */
export const correctionFile = correction.omit({ reason: true });

interface CorrectOptions {
  readonly certificate?: string;
  readonly changes?: string;
  readonly overrule?: number;
  readonly void?: number;
  readonly fields?: number | true;
  readonly reason?: string;
  readonly author?: string;
  readonly role: 'architect' | 'technician';
  readonly json?: boolean;
}

const HELP = `
Nothing in a record is ever changed: a new line says what is right, why and by whom, and the result
becomes another issue. Earlier issues stay (heelwright reduce lists them). A closed record too.

  --fields lists the lines that can be corrected; --fields LINE the fields of one and what stands
  there. --changes reads {"line": 1, "changes": [{"field": ["weights", 0, "massT"], "was": 0.25,
  "is": 0.26}]} (heelwright schema correction).
  --overrule names the line of a voiding (the reading is put back) or of a correction (it falls away).

Examples:
  heelwright correct day.hwr --certificate F-02.json --reason "calibrated again" --author "A. Rowan"
  heelwright correct day.hwr --fields 1
  heelwright correct day.hwr --changes mass.json --reason "wrong slip" --author "A. Rowan"`;

/** `correct RECORD`: a line that puts something right, at the desk. */
export function registerCorrect(program: Command): void {
  program
    .command('correct')
    .description(
      'put right by a new line what stands wrongly in a record, or replace a certificate',
    )
    .argument('<record>', 'the record file; no receiver may be writing it')
    .option('--certificate <file>', 'a new certificate of an instrument (schema certificate)')
    .option('--changes <file>', 'fields of one line, what they were and are (schema correction)')
    .option('--overrule <line>', 'set aside what this line decided', lineOf)
    .option('--void <line>', 'void the reading of this line', lineOf)
    .option('--fields [line]', 'only list what can be corrected', lineOf)
    .option('--reason <text>', 'why, in your own words')
    .option('--author <name>', 'who answers for it')
    .option('--role <role>', 'architect or technician (certificates only)', roleOf, 'architect')
    .option('--json', 'answer as JSON')
    .addHelpText('after', HELP)
    .action((path: string, options: CorrectOptions) =>
      guarded(options.json ?? false, async () => {
        if (options.fields !== undefined) listFields(path, options.fields, options.json ?? false);
        else await correct(path, options);
      }),
    );
}

async function correct(path: string, options: CorrectOptions): Promise<void> {
  const act = actOf(options);
  const author = written('--author', options.author, 64);
  if (options.role !== 'architect' && act.kind !== 'replace-certificate')
    throw new Fault('act-not-yours', act.kind, `${author} is here as ${options.role}`);
  // A name that is no record must not begin one.
  sessionFromFile(path);
  const { session, line } = await appended(path, act, { author, role: options.role });
  const issues = issuesOfSession(session);
  if (options.json) console.log(JSON.stringify({ line, issues }));
  else console.log([`Line ${line} is written.`, ...issueWords(issues)].join('\n'));
}

/** Takes the record's lock, writes the one line and waits for the disk. */
async function appended(
  path: string,
  act: ChangeAct,
  who: { readonly author: string; readonly role: Role },
): Promise<{ session: SessionState; line: number }> {
  const followers = new LineFollowers();
  const record = await RecordFile.open({
    path,
    program: `heelwright ${programVersion()}`,
    follow: (read) => followers.follow(read),
    clock: (last) =>
      continuedClock(
        MACHINE_CLOCK,
        last === null ? null : { monotonicS: last.receiverS, wallMs: Date.parse(last.wall) },
      ),
  });
  try {
    appendChange(record, followers.session, act, who);
    await record.commit();
    if (record.fault !== null) throw record.fault;
    return { session: followers.session, line: followers.session.lines - 1 };
  } finally {
    await record.close();
  }
}

function actOf(options: CorrectOptions): ChangeAct {
  const { certificate: certificateFile, changes, overrule, void: voided } = options;
  const asked = [certificateFile, changes, overrule, voided].filter((one) => one !== undefined);
  if (asked.length !== 1)
    throw new Fault(
      'input-shape',
      'correct',
      `exactly one of --certificate, --changes, --overrule, --void is wanted, ${asked.length} given`,
    );
  const reason = written('--reason', options.reason, 500);
  if (overrule !== undefined) return { kind: 'overrule', line: overrule, reason };
  if (voided !== undefined) return { kind: 'void-reading', line: voided, reason };
  if (changes !== undefined) {
    const { line, changes: fields } = inputFromFile(correctionFile, changes);
    return { kind: 'correct', correction: { line, changes: fields, reason } };
  }
  const given: z.infer<typeof certificate> = inputFromFile(certificate, certificateFile!);
  return { kind: 'replace-certificate', certificate: given, reason };
}

function listFields(path: string, wanted: number | true, json: boolean): void {
  const session = sessionFromFile(path);
  const lines = wanted === true ? Array.from({ length: session.lines }, (_, n) => n) : [wanted];
  const found = lines.flatMap((line) => {
    const target = lineInForce(session, line);
    if (target === null) return [];
    const fields = correctableFields(target).map(({ field, value }) => ({
      field,
      words: fieldWords(target, field),
      value,
    }));
    return [{ line, kind: target.kind, fields }];
  });
  if (found.length === 0)
    throw new Fault('correction-unfit', `line ${wanted}`, 'is none that can be corrected');
  if (json) console.log(JSON.stringify(found));
  else if (wanted === true)
    for (const { line, kind, fields } of found)
      console.log(`Line ${line}: ${kind}, ${fields.length} fields`);
  else
    for (const { field, words, value } of found[0]!.fields)
      console.log(`${JSON.stringify(field)}  ${words}: ${JSON.stringify(value)}`);
}

function written(option: string, text: string | undefined, most: number): string {
  const trimmed = text?.trim() ?? '';
  if (trimmed === '' || trimmed.length > most)
    throw new Fault('input-shape', option, `1 to ${most} letters are wanted`);
  return trimmed;
}

function lineOf(text: string): number {
  if (!/^\d{1,15}$/.test(text)) throw new InvalidArgumentError('a line number.');
  return Number(text);
}

function roleOf(text: string): CorrectOptions['role'] {
  if (text !== 'architect' && text !== 'technician')
    throw new InvalidArgumentError('architect or technician.');
  return text;
}
