import { type Command, InvalidArgumentError } from 'commander';
import type { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { type LoadChange, loadChange } from '#core/limits/change.ts';
import { type LimitsAsked, limitsAnswer } from '#core/limits/limits-answer.ts';
import type { loadingOutput } from '#core/limits/limits-output.ts';
import { loadingInput } from '#core/stability/loading-input.ts';
import { type RuleSet, ruleSetFromJson } from '#core/stability/rule-set.ts';
import { ruleSetsNamed } from '#core/stability/rules/all-rule-sets.ts';
import { stabilityAnswer } from '#core/stability/stability-answer.ts';
import { bytesOf, hullFromFile } from '../hull-file.ts';
import { fileBeside } from '../test-hull.ts';
import { type BookletMade, type BookletWishes, bookletOf } from './booklet.ts';
import { EXIT, guarded, inputFromFile, writeNewFile } from './common.ts';
import { limitsWords } from './limits-words.ts';
import { numbersOf } from './numbers.ts';
import { stabilityWords } from './stability-words.ts';

const HELP = `
CONDITION is a loading file, JSON (heelwright schema loading): the vessel's particulars, her hull file
beside it, lightship, spaces, openings as they are kept at sea, the rule sets asked, and loading
conditions, or one trip from which the standard set of conditions is made. Answers each condition's
weights, draughts and list, levers to both sides with the liquids moved, and every clause: met, not
met, met with a margin within its uncertainty, or not judged and why.

What the crew is told (--table, --remedies) goes by the upper one-sided 95 % of KG. Clauses from memory
and sets she is outside of limit nothing.

Exit codes: 0 every clause that was judged is met, 2 wrong usage, 3 the file is refused (code, where,
what), 4 a clause is not met, or met within its uncertainty and not signed for.

Examples:
  heelwright stability loading.json
  heelwright stability loading.json --only arrival --json
  heelwright stability loading.json --limits 40,44,48 --trims 0,0.3 --table
  heelwright stability loading.json --booklet booklet-2.pdf --revision 2 --against revision.json
  heelwright stability loading.json --only arrival --add 0.8,2.5,0,2.7 --remedies`;

interface Typed extends BookletWishes {
  readonly booklet?: string;
  readonly only?: string;
  readonly limits?: string;
  readonly trims: string;
  readonly table?: boolean;
  readonly remedies?: boolean;
  readonly add?: string;
  readonly remove?: string;
  readonly move?: string;
  readonly json?: boolean;
}

/** `stability CONDITION`: loading conditions judged by the clauses of their authority, and her limits. */
export function registerStability(program: Command): void {
  program
    .command('stability')
    .description('weights, righting levers, criteria and limits of loading conditions')
    .argument('<condition>', 'loading file (JSON)')
    .option('--only <name>', 'this condition alone')
    .option('--limits <t,...>', 'limiting KG at these displacements')
    .option('--trims <m,...>', 'and at each of these trims by the stern', '0')
    .option('--table', 'the wheelhouse table of all conditions')
    .option('--remedies', 'what would put right a condition that is not met')
    .option('--add <t,x,y,z>', 'what if so much is put aboard at that place, and how much may be')
    .option('--remove <t,x,y,z>', 'what if so much is taken off that place')
    .option('--move <t,x,y,z,x,y,z>', 'what if so much is moved')
    .option('--booklet <file>', 'write the stability booklet as a PDF; never over another file')
    .option('--revision <number>', 'of the booklet', revisionOf, 1)
    .option('--against <file>', 'revision.json of the booklet before: what changed is marked')
    .option('--json', 'answer as JSON (heelwright schema stability)')
    .addHelpText('after', HELP)
    .action((path: string, typed: Typed) =>
      guarded(typed.json ?? false, async () => {
        const asked = askedOf(typed);
        if (typeof asked === 'string') {
          console.error(asked);
          process.exitCode = EXIT.usage;
          return;
        }
        const loaded = await loadedFrom(path);
        const answer = answerOf(loaded, asked);
        if (typed.booklet !== undefined)
          writeNewFile(typed.booklet, await bookletOf({ ...loaded, answer }, typed));
        const words = () => [
          ...stabilityWords(answer),
          ...(answer.limits === null ? [] : limitsWords(answer.limits)),
        ];
        console.log(typed.json ? JSON.stringify(answer, null, 2) : words().join('\n'));
        const clauses = answer.conditions
          .flatMap(({ ruleSets }) => ruleSets)
          .flatMap((set) => set.clauses);
        if (clauses.some(({ countsAsMet }) => countsAsMet === false))
          process.exitCode = EXIT.failed;
      }),
    );
}

const MOST_LIMITS = 40;

/** What is asked, or in words what is wrong with how it was asked. */
function askedOf(typed: Typed): LimitsAsked | string {
  const displacementsT = numbersOf(typed.limits, MOST_LIMITS);
  const trimsM = numbersOf(typed.trims, MOST_LIMITS);
  if (typed.limits !== undefined && displacementsT === undefined)
    return `--limits ${typed.limits}: at most ${MOST_LIMITS} numbers parted by commas`;
  if (trimsM === undefined) return `--trims ${typed.trims}: numbers parted by commas`;
  const change = changeOf(typed);
  if (typeof change === 'string') return change;
  return {
    only: typed.only ?? null,
    limitingKg: displacementsT === undefined ? null : { displacementsT, trimsM },
    wheelhouse: typed.table ?? false,
    remedies: typed.remedies ?? false,
    change,
  };
}

function changeOf(typed: Typed): LoadChange | null | string {
  const acts = (['add', 'remove', 'move'] as const).filter((act) => typed[act] !== undefined);
  const [act] = acts;
  if (act === undefined) return null;
  if (acts.length > 1) return `one of ${acts.map((one) => `--${one}`).join(', ')} at a time`;
  const numbers = numbersOf(typed[act], 7);
  const wanted = act === 'move' ? 7 : 4;
  if (numbers?.length !== wanted) return `--${act} ${typed[act]}: ${wanted} numbers, t and m`;
  const [massT, x, y, z, ...then] = numbers as [number, number, number, number, ...number[]];
  const place = (xM: number, yM: number, zM: number) => ({ xM, yM, zM });
  const what = `${massT} t ${ACTS[act]}`;
  const at = place(x, y, z);
  const [toX, toY, toZ] = then;
  const written =
    act === 'move'
      ? { act, what, massT, at, to: place(toX!, toY!, toZ!) }
      : { act, what, massT, at };
  const checked = loadChange.safeParse(written);
  return checked.success
    ? checked.data
    : `--${act} ${typed[act]}: ${checked.error.issues[0]?.message}`;
}

const ACTS = { add: 'put aboard', remove: 'taken off', move: 'moved' } as const;

async function loadedFrom(path: string): Promise<Omit<BookletMade, 'answer'>> {
  const input = inputFromFile(loadingInput, path);
  const own = (input.ownRuleSets ?? []).map((name) => ownRuleSet(fileBeside(path, name)));
  const sets = ruleSetsNamed(input.ruleSets, own);
  const hull = await hullFromFile(fileBeside(path, input.hull));
  return { input, hull, sets };
}

function answerOf(
  { input, hull, sets }: Omit<BookletMade, 'answer'>,
  asked: LimitsAsked,
): z.infer<typeof loadingOutput> {
  const answer = stabilityAnswer(input, hull, sets, asked.only ?? undefined);
  const { limitingKg, wheelhouse, remedies, change } = asked;
  const none = limitingKg === null && !wheelhouse && !remedies && change === null;
  return { ...answer, limits: none ? null : limitsAnswer(input, hull, sets, asked) };
}

function revisionOf(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text)) throw new InvalidArgumentError('a whole number from 1.');
  return Number(text);
}

const MOST_RULE_BYTES = 512 * 1024;

function ownRuleSet(path: string): RuleSet {
  const bytes = bytesOf(path);
  if (bytes.length > MOST_RULE_BYTES) {
    throw new Fault('input-too-large', path, `${bytes.length} bytes, at most ${MOST_RULE_BYTES}`);
  }
  let json: unknown;
  try {
    json = JSON.parse(bytes.toString('utf8'));
  } catch (error) {
    throw new Fault('input-not-json', path, (error as Error).message);
  }
  return ruleSetFromJson(json, path);
}
