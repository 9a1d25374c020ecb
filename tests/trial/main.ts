import { execFileSync } from 'node:child_process';
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { causes } from './causes.ts';
import { chipDays } from './chip-days.ts';
import { coverage } from './coverage.ts';
import { disturbances } from './disturbances.ts';
import { estimator } from './estimator.ts';
import { hostile } from './hostile.ts';
import { killRounds } from './kill-rounds.ts';
import { linkRounds } from './link-rounds.ts';
import { otherNode } from './other-node.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { recordings } from './recordings.ts';
import { sampleDays } from './sample-days.ts';
import { shapes } from './shapes.ts';
import { soak } from './soak.ts';

/**
 * The long set of checks, in slices: `npm run trial -- --minutes N --part P [--keep]`.
 * `--part rotate` chooses by the commit, `--keep` adds the results to tests/trial/results.jsonl.
 */
const root = process.cwd();
const RESULTS = join(root, 'tests', 'trial', 'results.jsonl');
const PARTS: readonly TrialPart[] = [
  otherNode,
  sampleDays,
  estimator,
  disturbances,
  recordings,
  coverage,
  shapes,
  causes,
  killRounds,
  linkRounds,
  chipDays,
  soak,
  hostile,
];

const PARTS_AT_A_TIME = 4;

function argument(name: string): string | undefined {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
}

function commitOf(): string {
  return execFileSync('git', ['rev-parse', 'HEAD'], { cwd: root, encoding: 'utf8' }).trim();
}

function keptResults(): TrialResult[] {
  if (!existsSync(RESULTS)) return [];
  return readFileSync(RESULTS, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as TrialResult);
}

/** Seeds no earlier slice has used: after the kept ones, at a place of the commit's own. */
function firstSeedFor(part: string, commit: string, kept: readonly TrialResult[]): number {
  const after = Math.max(
    0,
    ...kept.filter((line) => line.part === part).map(({ seeds: [first, count] }) => first + count),
  );
  return process.argv.includes('--keep')
    ? after
    : 1_000_000 + (Number.parseInt(commit.slice(0, 6), 16) % 1_000_000) * 10;
}

/** Some parts, of which the commit says where they begin, so that each gets time enough to say something. */
function rotated(commit: string): TrialPart[] {
  const first = Number.parseInt(commit.slice(0, 8), 16);
  return Array.from(
    { length: PARTS_AT_A_TIME },
    (_, k) => PARTS[(first + k) % PARTS.length] as TrialPart,
  );
}

async function main(): Promise<void> {
  const minutes = Number(argument('--minutes') ?? '10');
  const asked = argument('--part') ?? 'rotate';
  if (!(minutes > 0 && minutes <= 600)) throw new Error('--minutes takes a number from 0 to 600');
  const commit = commitOf();
  const chosen =
    asked === 'all'
      ? PARTS
      : asked === 'rotate'
        ? rotated(commit)
        : PARTS.filter((part) => part.name === asked);
  if (chosen.length === 0)
    throw new Error(`--part takes ${PARTS.map((part) => part.name).join(', ')}, all or rotate`);

  const kept = keptResults();
  const endMs = Date.now() + minutes * 60_000;
  const results: TrialResult[] = [];
  for (const [index, part] of chosen.entries()) {
    const leftMs = endMs - Date.now();
    if (leftMs <= 0) {
      console.log(`not begun, the time is used up: ${part.name}`);
      continue;
    }
    console.log(`\n${part.name}: ${part.what}`);
    const context: TrialContext = {
      commit,
      firstSeed: firstSeedFor(part.name, commit, kept),
      untilMs: Date.now() + leftMs / (chosen.length - index),
      nowMs: () => Date.now(),
      say: (text) => console.log(`  ${text}`),
      kept,
      recordingsFolder: argument('--recordings') ?? null,
    };
    results.push(await part.run(context));
  }
  if (process.argv.includes('--keep')) {
    for (const result of results) appendFileSync(RESULTS, JSON.stringify(result) + '\n');
  }
  for (const { name, table } of chosen) {
    if (table === undefined) continue;
    console.log(`\nAccumulated (kept) and this slice, ${name}:\n${table([...kept, ...results])}`);
  }
  const broken = results.flatMap((result) =>
    result.broken.map((words) => `${result.part}: ${words}`),
  );
  for (const words of broken) console.log(`LAW BROKEN: ${words}`);
  console.log(broken.length === 0 ? 'no law broken' : `${broken.length} laws broken`);
  process.exitCode = broken.length === 0 ? 0 : 4;
}

await main();
