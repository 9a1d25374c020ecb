import { expect, it } from 'vitest';
import { mayAct, type PersonRole, ROLES_OF_ACT } from '#core/wire/role-acts.ts';
import { act } from '#core/wire/screen-message.ts';

it('names the roles of every act, and no act that is not', () => {
  const kinds = act.options.map((option) => option.shape.kind.value);
  expect(Object.keys(ROLES_OF_ACT).sort()).toEqual([...kinds].sort());
});

it('a witness reads, writes a word, receipts and signs, and changes nothing', () => {
  const of = (role: PersonRole) =>
    act.options.map((option) => option.shape.kind.value).filter((kind) => mayAct(role, kind));
  expect(of('witness').sort()).toEqual(['ask', 'remark', 'sign', 'take-receipt']);
  expect(of('technician').sort()).toEqual([
    'confirm-sign',
    'mark-time',
    'remark',
    'remount-instrument',
    'replace-certificate',
    'sign',
    'take-receipt',
  ]);
  expect(of('architect')).not.toContain('ask');
});
