import type { Command } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { loadingInput } from '#core/stability/loading-input.ts';
import { type RuleSet, ruleSetFromJson } from '#core/stability/rule-set.ts';
import { ruleSetsNamed } from '#core/stability/rules/all-rule-sets.ts';
import { stabilityAnswer } from '#core/stability/stability-answer.ts';
import type { StabilityOutput } from '#core/stability/stability-output.ts';
import { bytesOf, hullFromFile } from '../hull-file.ts';
import { fileBeside } from '../test-hull.ts';
import { EXIT, guarded, inputFromFile } from './common.ts';
import { stabilityWords } from './stability-words.ts';

const HELP = `
CONDITION is a loading file, JSON (heelwright schema loading): the vessel's particulars, her hull file
beside it, lightship, spaces, openings as they are kept at sea, the rule sets asked, and loading
conditions, or one trip from which the standard set of conditions is made. Answers each condition's
weights, draughts and list, levers to both sides with the liquids moved, and every clause: met, not
met, met with a margin within its uncertainty, or not judged and why.

Exit codes: 0 every clause that was judged is met, 2 wrong usage, 3 the file is refused (code, where,
what), 4 a clause is not met, or met within its uncertainty and not signed for.

Examples:
  heelwright stability loading.json
  heelwright stability loading.json --only arrival --json`;

/** `stability CONDITION`: loading conditions judged by the clauses of their authority. */
export function registerStability(program: Command): void {
  program
    .command('stability')
    .description('weights, righting levers and criteria of loading conditions')
    .argument('<condition>', 'loading file (JSON)')
    .option('--only <name>', 'this condition alone')
    .option('--json', 'answer as JSON (heelwright schema stability)')
    .addHelpText('after', HELP)
    .action((path: string, options: { only?: string; json?: boolean }) =>
      guarded(options.json ?? false, async () => {
        const answer = await answerOf(path, options.only);
        console.log(
          options.json ? JSON.stringify(answer, null, 2) : stabilityWords(answer).join('\n'),
        );
        const clauses = answer.conditions
          .flatMap(({ ruleSets }) => ruleSets)
          .flatMap((set) => set.clauses);
        if (clauses.some(({ countsAsMet }) => countsAsMet === false))
          process.exitCode = EXIT.failed;
      }),
    );
}

async function answerOf(path: string, only: string | undefined): Promise<StabilityOutput> {
  const input = inputFromFile(loadingInput, path);
  const own = (input.ownRuleSets ?? []).map((name) => ownRuleSet(fileBeside(path, name)));
  const sets = ruleSetsNamed(input.ruleSets, own);
  const hull = await hullFromFile(fileBeside(path, input.hull));
  return stabilityAnswer(input, hull, sets, only);
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
