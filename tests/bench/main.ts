import { availableParallelism } from 'node:os';
import { type ChainFigures, measureChain } from './chain.ts';
import { measureDocuments } from './documents.ts';
import { measureEmulatedSpeed } from './emulated-boards.ts';
import { measureFaultToFlag } from './fault-to-flag.ts';
import { measureHull } from './hull.ts';
import { measureIngest } from './ingest.ts';
import { measureOpening } from './opening.ts';
import { measureMessageToPixel } from './pixel.ts';
import { measureRecovery } from './recovery.ts';
import { measureStability } from './stability.ts';
import { measureStartUp } from './start-up.ts';
import { measureWatchCost } from './watch-cost.ts';

/** `npm run bench`: every speed the README names, from one run on one machine. */
const SCAN_RATES_HZ = [50, 100, 200] as const;

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

function chainLine(figures: ChainFigures): string {
  const cores = (share: number | null): string =>
    share === null ? '-' : `${(100 * share).toFixed(0)} %`;
  return (
    `  ${figures.scanHz} scans a second: ${figures.samplesPerSecond.toFixed(0)} samples a second on disk, ` +
    `${figures.skipped} scans left out; of a core: boards and board side ${cores(figures.boardSideCores)}, receiver ${cores(figures.receiverCores)}`
  );
}

console.log(
  `Node ${process.versions.node}, ${process.platform} ${process.arch}, ${availableParallelism()} cores\n`,
);

const hull = await measureHull();
console.log('A hull of 21 stations cut by a heeled and trimmed waterline');
console.log(
  `  own ${hull.cutUs.toFixed(0)} us (50 aimed at), volume off by ${hull.cutShare.toExponential(1)} against ${hull.facetsOfReference} facets of the same hull (1e-4 aimed at)`,
);
console.log(
  `  plain clip of ${hull.plainFacets} facets, off by ${hull.plainShare.toExponential(1)}: ${hull.plainUs.toFixed(0)} us, ${(hull.plainUs / hull.cutUs).toFixed(1)} times ours (10 aimed at); a general library on them ${hull.libraryUs.toFixed(0)} us`,
);
for (const { hull: name, ms } of hull.gzMs) {
  console.log(`  GZ of 37 heels, free to trim, ${name}: ${ms.toFixed(1)} ms (20 aimed at)`);
}

const stability = measureStability();
console.log('\nLimits and what-if of _Marram_, liquids moved, both sides, every clause');
console.log(
  `  limiting KG at ten displacements ${(stability.limitingKgMs / 1000).toFixed(1)} s; what-if after a slider p95 ${quantile(stability.whatIfMs, 0.95).toFixed(0)} ms, with every error of the weights ${quantile(stability.whatIfWithErrorsMs, 0.95).toFixed(0)} ms`,
);

console.log('\nEmulated boards, seconds of theirs to one of the wall');
for (const rateHz of SCAN_RATES_HZ) {
  const speed = await measureEmulatedSpeed(1e6 / rateHz);
  console.log(
    `  ${rateHz} scans a second: both boards in one thread ${speed.oneThread.toFixed(1)}, a thread each ${speed.twoThreads.toFixed(1)} (50 asked)`,
  );
}

console.log('\nThe whole chain at pace 1, chip to disk');
const chains: ChainFigures[] = [];
for (const rateHz of SCAN_RATES_HZ) {
  const figures = await measureChain(rateHz);
  chains.push(figures);
  console.log(chainLine(figures));
}

const toScreen = chains[0]!.toScreenMs;
const toPixel = await measureMessageToPixel();
console.log(
  '\nFrom the newest smoothed sample on the board to the screen (half a second of it is the low-pass)',
);
console.log(
  `  to the message: p50 ${quantile(toScreen, 0.5).toFixed(0)} ms, p95 ${quantile(toScreen, 0.95).toFixed(0)} ms`,
);
console.log(
  toPixel === null || toPixel.length === 0
    ? '  message to pixel: no browser named in CHROME_PATH'
    : `  message to pixel: p50 ${quantile(toPixel, 0.5).toFixed(0)} ms, p95 ${quantile(toPixel, 0.95).toFixed(0)} ms`,
);

const flagged = await measureFaultToFlag();
console.log('\nFrom a chip that stops answering to the screen that shows no heel of it any more');
console.log(
  `  ${flagged.length} times: p50 ${quantile(flagged, 0.5).toFixed(0)} ms, p95 ${quantile(flagged, 0.95).toFixed(0)} ms`,
);

console.log('\nSteadiness, learning and readings included');
console.log(
  `  ${measureWatchCost().toFixed(1)} microseconds a smoothed sample and channel (2 aimed at)`,
);

const opening = measureOpening();
console.log('\nOpening the record of eight hours: chain, form and fold of every line');
console.log(
  `  ${(opening.bytes / 1e6).toFixed(0)} MB, ${opening.lines} lines: ${opening.openS[0].toFixed(2)} to ${opening.openS[1].toFixed(2)} s`,
);

const ingest = await measureIngest();
const middle = (values: readonly number[]): number => quantile(values, 0.5);
console.log('\nIngest: the whole receiver beside a bare server that parses the same messages');
console.log(
  `  counts a second: bare ${middle(ingest.barePerS).toFixed(0)}, receiver ${middle(ingest.receiverPerS).toFixed(0)}, judged too ${middle(ingest.judgedPerS).toFixed(0)}; ` +
    `ratio ${(middle(ingest.receiverPerS) / middle(ingest.barePerS)).toFixed(2)} (aim 0.5)`,
);
console.log(
  `  main thread, us a message: bare ${ingest.bareMessageUs.toFixed(1)}, receiver ${ingest.receiverMessageUs.toFixed(1)}`,
);
console.log(
  `  acknowledged after p50 ${quantile(ingest.acknowledgedMs, 0.5).toFixed(0)} ms, p99 ${quantile(ingest.acknowledgedMs, 0.99).toFixed(0)} ms; ${ingest.bytesPerSample.toFixed(1)} bytes a count on disk`,
);

const recovery = await measureRecovery();
const between = ([best, worst]: readonly [number, number]): string =>
  `${best.toFixed(2)} to ${worst.toFixed(2)} s`;
console.log('\nAfter kill -9 with the record of eight hours');
console.log(
  `  address again ${between(recovery.addressS)}, a waiting board side acknowledged ${between(recovery.acknowledgedS)}; verify ${between(recovery.verifyS)}`,
);

const startUp = await measureStartUp();
console.log('\nnpm start to the printed address');
console.log(
  startUp === null
    ? '  not measured: the packages could not be installed'
    : `  fresh clone, npm ci and screen included ${startUp.firstS.toFixed(1)} s; again ${startUp.againS.toFixed(1)} s`,
);
process.exit(0);

const documents = await measureDocuments();
console.log('\nDocuments');
console.log(
  `  report of 40 shifts, 6 instruments, 300 items: ${documents.wideS.toFixed(1)} s, ${documents.widePages} pages, ${(documents.wideBytes / 1e6).toFixed(1)} MB`,
);
console.log(
  `  eight hours of three boards: report ${documents.reportS.toFixed(1)} s, whole export as one ZIP ${documents.exportS.toFixed(1)} s, ${(documents.exportBytes / 1e6).toFixed(0)} MB; most memory of this process ${documents.mostMb.toFixed(0)} MB`,
);
