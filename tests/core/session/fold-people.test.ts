import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { PeopleState } from '#core/session/session.ts';
import { PersonKey } from '#tests/support/person-key.ts';
import { RecordLines } from '#tests/support/record-lines.ts';

function peopleOf({ lines }: RecordLines): PeopleState {
  let session = EMPTY_SESSION;
  let chain = EMPTY_CHAIN;
  for (const bytes of lines) {
    const followed = followLine(chain, bytes, sha256Hex);
    session = foldLine(session, followed.read.line);
    chain = followed.chain;
  }
  return session.people;
}

const WITNESS = { person: '0badcafe', role: 'witness' as const, name: 'M. Quill' };

describe('people in the session', () => {
  it('are those let in, each until withdrawn', () => {
    const record = new RecordLines();
    record.add('person-admitted', { ...WITNESS, way: 'this machine' });
    record.add('person-admitted', { ...WITNESS, person: '12345678', way: '10.0.0.7 over TLS' });
    record.add('access-withdrawn', WITNESS);
    expect(peopleOf(record).admitted).toMatchObject([
      { person: '0badcafe', name: 'M. Quill', withdrawn: { line: 3 } },
      { person: '12345678', way: '10.0.0.7 over TLS', withdrawn: null },
    ]);
  });

  it('ask, and it stays open until it is answered; an answer to nothing is refused', () => {
    const record = new RecordLines();
    const asked = record.add(
      'witness-asked',
      { what: 'objection', text: 'no', line: 0 },
      'witness',
    );
    expect(peopleOf(record).asks).toMatchObject([{ what: 'objection', line: 0, answers: [] }]);
    record.add('witness-answered', { line: asked, text: 'read again' });
    record.add('witness-answered', { line: asked, text: 'and again' });
    expect(peopleOf(record).asks[0]?.answers).toMatchObject([
      { text: 'read again', written: { role: 'architect' } },
      { text: 'and again' },
    ]);
    record.add('witness-answered', { line: 0, text: 'to whom?' });
    expect(() => peopleOf(record)).toThrowError(Fault);
  });

  it('receipt: the newest of each key counts', () => {
    const record = new RecordLines();
    const [one, two] = [new PersonKey('one'), new PersonKey('two')];
    const take = (key: PersonKey) => {
      const { next: lines, head } = record.chain;
      record.add('receipt-taken', key.receipt('test-record', { lines, head }), 'witness');
    };
    take(one);
    take(two);
    take(one);
    expect(peopleOf(record).receipts.map(({ lines, publicKey }) => [lines, publicKey])).toEqual([
      [2, two.publicKey],
      [3, one.publicKey],
    ]);
  });

  it('seal, and sign what the line after the seal proves it to be', () => {
    const record = new RecordLines();
    const seal = record.add('seal', { reason: 'done' });
    const digest = record.chain.head;
    expect(peopleOf(record).seals).toMatchObject([{ digest: null, signatures: [] }]);
    record.add('remark', { text: 'a line after it', line: null });
    expect(peopleOf(record).seals).toMatchObject([{ reason: 'done', digest }]);
    record.add('signature', new PersonKey('w').signature('test-record', seal, digest), 'witness');
    expect(peopleOf(record).seals[0]?.signatures).toMatchObject([{ written: { role: 'witness' } }]);
    record.add('signature', new PersonKey('w').signature('test-record', 0, digest), 'witness');
    expect(() => peopleOf(record)).toThrowError(Fault);
  });

  it('let a technician work during the test, and no more', () => {
    const record = new RecordLines();
    record.add('technician-work', { allowed: true, reason: 'a sensor died' });
    expect(peopleOf(record).technicianWork).toMatchObject({ reason: 'a sensor died' });
    record.add('technician-work', { allowed: false, reason: 'it reads again' });
    expect(peopleOf(record).technicianWork).toBeNull();
  });
});
