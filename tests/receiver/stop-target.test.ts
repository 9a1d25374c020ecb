import { expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { SessionState } from '#core/session/session.ts';
import { StopTargets } from '#receiver/stop-target.ts';
import { FakeDay } from '../support/fake-day.ts';

function targetsOf(session: () => SessionState, full = { full: false }) {
  const said: NonNullable<SessionState['stopTarget']>[] = [];
  const record = {
    append: (_kind: string, body: unknown) => {
      if (full.full) throw new Fault('record-disk', 'record', 'the disk is full');
      said.push(body as (typeof said)[number]);
      return 0;
    },
  } as unknown as ConstructorParameters<typeof StopTargets>[0];
  return { targets: new StopTargets(record, session), said };
}

it('is a line when a reading is awaited, and again only when it changed', () => {
  let session = new FakeDay().session;
  const { targets, said } = targetsOf(() => session);
  targets.write();
  targets.write();
  expect(said).toHaveLength(1);
  session = { ...session, stopTarget: said[0]!, states: [...session.states] };
  targets.write();
  expect(said).toHaveLength(1);
  const twice = { ...said[0]!, standardErrorDeg: 2 * said[0]!.standardErrorDeg };
  session = { ...session, stopTarget: twice, states: [...session.states] };
  targets.write();
  expect(said).toHaveLength(2);
  session = { ...session, awaits: 'shift', states: [...session.states] };
  targets.write();
  expect(said).toHaveLength(2);
});

it('is tried again when a full disk did not take it', () => {
  const full = { full: true };
  const { session } = new FakeDay();
  const { targets, said } = targetsOf(() => session, full);
  targets.write();
  expect(said).toHaveLength(0);
  full.full = false;
  targets.write();
  expect(said).toHaveLength(1);
});
