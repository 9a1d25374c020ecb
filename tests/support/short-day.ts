import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { startProgram, until } from './programs.ts';
import { receiverStarted } from './receiver-access.ts';
import { ScreenClient } from './screen-client.ts';

export interface ShortDay {
  /** Folder the record and the station's files go to; it is the caller's. */
  readonly folder: string;
  readonly pace?: number;
  readonly seed?: number;
  readonly shifts?: number;
  /** Is she set rolling at the end, and the run looked for? */
  readonly roll?: boolean;
}

/** A short day by the real programs beside a simulated vessel, ended as one ends them; gives the record's path. */
export async function shortDay(wishes: ShortDay): Promise<string> {
  const record = join(wishes.folder, 'day.hwr');
  const demo = startProgram('receiver', [
    ...['demo', '--port', '0', '--seed', String(wishes.seed ?? 3)],
    ...['--pace', String(wishes.pace ?? 25), '--data', wishes.folder, '--record', record],
  ]);
  try {
    const { port } = await receiverStarted(demo);
    const screen = await ScreenClient.connect(port);
    const act = async (each: Parameters<ScreenClient['act']>[0]): Promise<void> => {
      const refused = await screen.act(each);
      if (refused !== null) throw new Error(`${each.kind}: ${refused}`);
    };
    await read(screen);
    for (let shift = 1; shift <= (wishes.shifts ?? 2); shift++) {
      await act({ kind: 'begin-shift' });
      await until(
        'the weights are down',
        () => screen.live?.simulation?.settledState === shift,
        60_000,
      );
      await act({ kind: 'weight-landed' });
      await read(screen);
    }
    if (wishes.roll === true) {
      await act({ kind: 'simulate-sway' });
      await rolled(screen);
    }
    await act({ kind: 'remark', text: 'The day was short.', line: null });
    await act({ kind: 'close-test', reason: 'all shifts wanted are read' });
    screen.close();
  } finally {
    await demo.stop();
  }
  readFileSync(record);
  return record;
}

/** Looks for free roll until a run has come to its end. */
async function rolled(screen: ScreenClient): Promise<void> {
  for (let attempt = 0; attempt < 60; attempt++) {
    if ((await screen.act({ kind: 'look-for-roll', marked: null })) === null) return;
    await pause(500);
  }
  throw new Error('no run of free roll was found');
}

/** Takes the reading when it is offered; what was offered a moment ago may be refused once. */
async function read(screen: ScreenClient): Promise<void> {
  for (let attempt = 0; attempt < 20; attempt++) {
    await until('a reading is offered', () => screen.live?.joined.readable === true, 60_000);
    if ((await screen.act({ kind: 'take-reading' })) === null) return;
  }
  throw new Error('no reading was taken');
}
