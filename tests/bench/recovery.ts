import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { type Program, startProgram, until } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { blockBody, STREAM } from '#tests/support/record-lines.ts';
import { helloOf, StationClient } from '#tests/support/station-client.ts';
import { writeEightHours } from './opening.ts';

const ROUNDS = 3;
const CHANNELS = 4;
const BLOCK_SAMPLES = 50;
const STATION = STREAM.slice(0, STREAM.indexOf('/'));

export interface RecoveryFigures {
  /** Wall seconds from the start after kill -9 to the printed address, best and worst. */
  readonly addressS: readonly [number, number];
  /** To the first acknowledgement of a board side that was waiting. */
  readonly acknowledgedS: readonly [number, number];
  /** Wall seconds of the whole `verify` command, best and worst. */
  readonly verifyS: readonly [number, number];
}

/** The real receiver killed in mid-stream over the record of eight hours, and that record verified. */
export async function measureRecovery(): Promise<RecoveryFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'recovery-'));
  const path = join(folder, 'day.hwr');
  let running: Program | null = null;
  try {
    const { nextBlock, nextSequence } = writeEightHours(path);
    const address: number[] = [];
    const acknowledged: number[] = [];
    const verify: number[] = [];
    let number = nextBlock;
    const block = (): object => {
      const first = nextSequence + (number - nextBlock) * BLOCK_SAMPLES;
      const body = blockBody(number, first, BLOCK_SAMPLES);
      return { ...body, columns: Array.from({ length: CHANNELS }, () => body.columns[0]) };
    };
    for (let round = 0; round <= ROUNDS; round += 1) {
      const beganMs = performance.now();
      const { program, port } = await receiverOn(path);
      running = program;
      const addressMs = performance.now();
      const station = await StationClient.connect(port);
      station.send(helloOf(station.challenge, STATION, 'bench'));
      station.send(block());
      const isThere = () => (station.acknowledged(STREAM) ?? -1) >= number;
      await until('it is acknowledged', isThere);
      // The first start is of a record that nobody was killed over.
      if (round > 0) {
        address.push((addressMs - beganMs) / 1000);
        acknowledged.push((performance.now() - beganMs) / 1000);
      }
      number += 1;
      station.send(block());
      await program.kill();
      station.close();
      // Whether that one got there is for the next start to find out: it is sent again.
    }
    for (let round = 0; round < ROUNDS; round += 1) verify.push(await verifyS(path));
    return {
      addressS: bestAndWorst(address),
      acknowledgedS: bestAndWorst(acknowledged),
      verifyS: bestAndWorst(verify),
    };
  } finally {
    await running?.kill();
    rmSync(folder, { recursive: true });
  }
}

async function receiverOn(path: string): Promise<{ program: Program; port: number }> {
  const program = startProgram('receiver', [
    ...['receive', '--record', path, '--port', '0', '--data', dirname(path)],
  ]);
  const { port } = await receiverStarted(program);
  return { program, port };
}

async function verifyS(path: string): Promise<number> {
  const beganMs = performance.now();
  const program = startProgram('receiver', ['verify', path]);
  await program.says(/All \d+ lines hold/, 60_000);
  return (performance.now() - beganMs) / 1000;
}

function bestAndWorst(values: readonly number[]): [number, number] {
  return [Math.min(...values), Math.max(...values)];
}
