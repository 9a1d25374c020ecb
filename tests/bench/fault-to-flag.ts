import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startRig } from '#device/emulated/rig.ts';
import { emulatedOutfit, emulatedPorts } from '#device/emulated-station.ts';
import { machineClock } from '#device/machine-clock.ts';
import { Station } from '#device/station.ts';
import { freePort, pause, startProgram } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';

const SETTLE_MS = 12_000;
const TIMES = 12;
const SOUND_MS = 2500;
const GIVEN_UP_MS = 10_000;
const INSTRUMENT = 'fore';
const ADDRESS = 0x6a;

/** From the moment a chip stops answering to the first picture of a screen that shows no heel of it, ms. */
export async function measureFaultToFlag(): Promise<number[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const port = await freePort();
  const receiver = startProgram('receiver', [
    ...['receive', '--data', folder],
    ...['--record', join(folder, 'bench.hwr'), '--port', `${port}`],
  ]);
  const { pair } = await receiverStarted(receiver);
  const rig = startRig({ seed: 3, pace: 1, wall: machineClock });
  const station = await Station.open({
    dataFolder: join(folder, 'station'),
    receiverUrl: `ws://127.0.0.1:${port}/device`,
    pairing: { code: pair.at(-1)!, pin: null },
    clocks: { station: rig.clock, machine: machineClock },
    report: () => undefined,
    outfit: emulatedOutfit(3, []),
  });
  for (const one of emulatedPorts(rig)) station.keep(one);
  const screen = await ScreenClient.connect(port);
  const isFlagged = (): boolean => {
    const own = screen.live?.instruments.find(({ instrument }) => instrument === INSTRUMENT);
    return own !== undefined && (own.verdict === 'silent' || own.trace.heelDeg.at(-1) === null);
  };
  try {
    await pause(SETTLE_MS);
    const took: number[] = [];
    for (let k = 0; k < TIMES; k++) {
      await pause(SOUND_MS + 37 * k);
      if (isFlagged()) continue;
      const fromMs = performance.now();
      rig.disturbBus('fore', { kind: 'no-answer', address: ADDRESS });
      while (!isFlagged() && performance.now() - fromMs < GIVEN_UP_MS) await pause(2);
      took.push(performance.now() - fromMs);
      rig.disturbBus('fore', { kind: 'none' });
    }
    return took;
  } finally {
    screen.close();
    await station.stop(0);
    await rig.stop();
    await receiver.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}
