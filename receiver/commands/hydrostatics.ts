import type { Command } from 'commander';
import type { Hull } from '#core/hull/hull.ts';
import { hullEvidenceAt } from '#core/hull/hull-evidence.ts';
import { type HydrostaticsQuestion, hydrostaticsAnswer } from '#core/hull/hydrostatics-output.ts';
import { type Waterline, waterlineFromDraughts } from '#core/hull/waterline.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { hullFromFile } from '../hull-file.ts';
import { measuredHullFromFile, spotChecksFromFile } from '../measured-hull-file.ts';
import { EXIT, guarded } from './common.ts';
import { type TablesTyped, tablesAnswerOfFile, tablesWords } from './hydrostatics-tables.ts';
import { hydrostaticsWords } from './hydrostatics-words.ts';
import { numbersOf } from './numbers.ts';

/** Each option as typed; every one that is a number is read by `numbersOf`. */
interface Typed {
  readonly draught?: string;
  readonly draughtAft?: string;
  readonly draughtForward?: string;
  readonly trim?: string;
  readonly heel?: string;
  readonly density?: string;
  readonly kg?: string;
  readonly levers?: string;
  readonly heels?: string;
  readonly fixedTrim?: boolean;
  readonly port?: boolean;
  readonly points?: boolean;
  readonly check?: string;
  readonly tables?: boolean;
  readonly length?: string;
  readonly tablesDensity?: string;
  readonly kn?: string;
  readonly json?: boolean;
}

const HELP = `
HULL is a table of offsets, CSV or XLSX with the columns xM,zM,halfBreadthM (points in order up each
section; a repeated point is a knuckle), or a hull file, JSON (heelwright schema hull), which adds
the shell, deck line, appendages, superstructures and openings.
Draughts are over the baseline at the perpendiculars, trim is by the stern between them, heel is
starboard down. Give --draught (in the middle) with or without --trim, or both end draughts.

With --points HULL holds points measured ashore instead, in any order within a section, on one side
or both; what their errors do to displacement and KM is said, and what --check found.

With --tables HULL holds hydrostatics instead of lines, CSV or XLSX with the columns draughtM,
displacementT, lcbM, kmTransverseM and, where given, trimM, kbM, lcfM, immersionTPerCm,
trimMomentTMPerCm; draughts midway between perpendiculars that lie --length apart, displacements in
water of --tables-density. --kn FILE: its KN (displacementT,heelDeg,knM). Nothing is extrapolated.

Exit codes: 0 done, 2 wrong usage, 3 the hull is refused (code, file, row and column).

Examples:
  heelwright hydrostatics hull.csv --draught 1.42 --json
  heelwright hydrostatics hull.json --draught-aft 1.5 --draught-forward 1.3 --kg 2.26
  heelwright hydrostatics tables.csv --tables --length 15 --tables-density 1025 --draught 1.4
  heelwright hydrostatics hull.json --draught 1.4 --levers 40,45,50 --heels 0,5,10,20,30,40,60,90`;

const HEELS_DEG = '0,5,10,15,20,25,30,35,40,50,60,70,80,90';

/** `hydrostatics HULL`: the full set at a waterline, and a table of levers. */
export function registerHydrostatics(program: Command): void {
  program
    .command('hydrostatics')
    .description('displacement, centres, metacentres and righting levers of a hull at a waterline')
    .argument('<hull>', 'table of offsets (CSV, XLSX) or hull file (JSON)')
    .option('--draught <m>', 'draught midway between the perpendiculars')
    .option('--draught-aft <m>', 'draught at the after perpendicular')
    .option('--draught-forward <m>', 'draught at the forward perpendicular')
    .option('--trim <m>', 'draught aft less draught forward', '0')
    .option('--heel <degrees>', 'heel, starboard down', '0')
    .option('--density <kg/m3>', 'density of the water', '1025')
    .option('--kg <m>', 'height of the centre of gravity, for GM and GZ')
    .option('--levers <t,...>', 'displacements of the table of levers (the one found)')
    .option('--heels <degrees,...>', 'heels of the table of levers', HEELS_DEG)
    .option('--fixed-trim', 'hold the trim in the table of levers')
    .option('--port', 'heel to port in the table of levers')
    .option('--points', 'HULL is points measured ashore: xM,yM,zM, y to starboard')
    .option('--check <file>', 'spot checks at three stations (heelwright schema spot-checks)')
    .option('--tables', 'HULL is a table of hydrostatics, never extrapolated')
    .option('--length <m>', 'with --tables: between perpendiculars')
    .option('--tables-density <kg/m3>', 'with --tables: of the water its displacements are for')
    .option('--kn <file>', 'with --tables: a table of KN, displacementT,heelDeg,knM')
    .option('--json', 'answer as JSON (heelwright schema hydrostatics, hydrostatics-tables)')
    .addHelpText('after', HELP)
    .action((path: string, typed: Typed) =>
      guarded(typed.json ?? false, async () => {
        const asked = askedOf(typed);
        const tables = typeof asked === 'string' ? null : tablesTyped(typed, asked);
        const wrong =
          typeof asked === 'string' ? asked : typeof tables === 'string' ? tables : null;
        if (wrong !== null || typeof asked === 'string' || typeof tables === 'string') {
          console.error(wrong);
          process.exitCode = EXIT.usage;
          return;
        }
        if (tables !== null) {
          const answer = await tablesAnswerOfFile(path, tables, asked);
          console.log(
            typed.json ? JSON.stringify(answer, null, 2) : tablesWords(answer).join('\n'),
          );
          return;
        }
        const points = typed.points ? await measuredHullFromFile(path) : null;
        const hull = points?.hull ?? (await hullFromFile(path));
        const spots = typed.check === undefined ? null : spotChecksFromFile(typed.check);
        const waterline = asked.waterlineOf(hull);
        const evidence =
          points === null && spots === null
            ? null
            : hullEvidenceAt(hull, waterline, asked.densityKgM3 / 1000, { points, spots });
        const answer = hydrostaticsAnswer(hull, { ...asked, waterline, evidence });
        console.log(
          typed.json ? JSON.stringify(answer, null, 2) : hydrostaticsWords(answer).join('\n'),
        );
      }),
    );
}

type Asked = Omit<HydrostaticsQuestion, 'waterline' | 'evidence'> & {
  readonly draughtM: number;
  readonly trimM: number;
  waterlineOf(hull: Hull): Waterline;
};

/** What tables need besides, null without --tables, or in words what is wrong. */
function tablesTyped(typed: Typed, { heelsDeg }: Asked): TablesTyped | string | null {
  const own = ['length', 'tablesDensity', 'kn'] as const;
  if (!typed.tables) {
    const stray = own.find((name) => typed[name] !== undefined);
    return stray === undefined ? null : `--${stray.replace('D', '-d')} goes with --tables`;
  }
  if (typed.points || typed.check !== undefined || typed.port || typed.fixedTrim) {
    return '--tables goes without --points, --check, --port and --fixed-trim';
  }
  if (Number(typed.heel) !== 0) return '--tables are of her upright: no --heel';
  const lengthM = numbersOf(typed.length, 1)?.[0];
  const densityKgM3 = numbersOf(typed.tablesDensity, 1)?.[0];
  if (lengthM === undefined || !(lengthM > 0)) return '--tables needs --length, metres';
  if (densityKgM3 === undefined || !(densityKgM3 >= 900 && densityKgM3 <= 1100)) {
    return '--tables needs --tables-density, kg/m3, 900 to 1100';
  }
  if (heelsDeg.some((heel) => heel > 90)) return '--heels: tables of KN end at 90 degrees';
  return { lengthM, densityKgM3, knFile: typed.kn ?? null };
}

/** The question, or in words what is wrong with how it was asked. */
function askedOf(typed: Typed): Asked | string {
  const one = (name: keyof Typed) => numbersOf(typed[name], 1)?.[0];
  const [draught, aft, forward] = [one('draught'), one('draughtAft'), one('draughtForward')];
  const [trim, heelDeg, densityKgM3, kg] = [one('trim'), one('heel'), one('density'), one('kg')];
  const [displacementsT, heelsDeg] = [numbersOf(typed.levers, 40), numbersOf(typed.heels, 200)];
  const wrong = (
    ['draught', 'draughtAft', 'draughtForward', 'trim', 'heel', 'density', 'kg'] as const
  ).find((name) => typed[name] !== undefined && one(name) === undefined);
  if (wrong !== undefined)
    return `--${wrong.replace(/[A-Z]/, (c) => `-${c.toLowerCase()}`)} ${typed[wrong]} is not a number`;
  if (typed.levers !== undefined && displacementsT === undefined)
    return `--levers ${typed.levers}: numbers parted by commas`;
  if (heelsDeg === undefined || heelsDeg.some((heel) => heel < 0 || heel > 180)) {
    return `--heels ${typed.heels}: numbers from 0 to 180 parted by commas`;
  }
  const ends = aft !== undefined && forward !== undefined;
  if (draught === undefined ? !ends : aft !== undefined || forward !== undefined) {
    return 'give --draught, or --draught-aft and --draught-forward';
  }
  if (ends && trim !== 0) return '--trim goes with --draught: two end draughts give the trim';
  if (!(Math.abs(heelDeg!) < 90))
    return `--heel ${typed.heel}: under 90 degrees, draughts end there`;
  if (!(densityKgM3! >= 900 && densityKgM3! <= 1100))
    return `--density ${typed.density}: kg/m3, 900 to 1100`;
  return {
    densityKgM3: densityKgM3!,
    kgM: kg ?? null,
    trim: typed.fixedTrim ? 'fixed' : 'free',
    side: typed.port ? 'port' : 'starboard',
    heelsDeg,
    displacementsT: displacementsT ?? [],
    draughtM: ends ? (aft + forward) / 2 : draught!,
    trimM: ends ? aft - forward : trim!,
    waterlineOf: ({ aftXM, forwardXM }) =>
      waterlineFromDraughts(
        { xM: aftXM, draughtM: ends ? aft : draught! + trim! / 2 },
        { xM: forwardXM, draughtM: ends ? forward : draught! - trim! / 2 },
        radiansFromDegrees(heelDeg!),
      ),
  };
}
