import { describe, expect, it } from 'vitest';
import { factorFor, isAsked, outsideOf } from '#core/stability/applies-to.ts';
import { SPAIN_FISHING } from '#core/stability/rules/spain-fishing.ts';
import { type Made, madeEvidence } from '../../support/made-evidence.ts';

const vessel = (more: Made['vessel'] = {}) => madeEvidence({ vessel: more! }).vessel;
const fields = (found: ReturnType<typeof outsideOf>) =>
  found.map((one) => `${one.field} ${one.code}`);

describe('what a rule set applies to', () => {
  it('has its length from the one on and under the other, by the measure named', () => {
    const length = { measure: 'regulation', fromM: 12, underM: 24 } as const;
    const of = (regulation: number) =>
      fields(outsideOf({ length }, vessel({ lengthsM: { regulation } })));
    expect(of(12)).toEqual([]);
    expect(of(23.999)).toEqual([]);
    expect(of(11.999)).toEqual(['length outside']);
    expect(of(24)).toEqual(['length outside']);
    expect(fields(outsideOf({ length }, vessel({ lengthsM: { overall: 15 } })))).toEqual([
      'length not-given',
    ]);
  });

  it('has service, waters, day of building and deck, and says each that is not given', () => {
    const applies = {
      services: ['towing', 'fishing'],
      waters: ['coastal'],
      builtFrom: '2009-05-01',
      builtBefore: '2010-01-01',
      decked: true,
    } satisfies Parameters<typeof outsideOf>[0];
    expect(outsideOf(applies, vessel())).toEqual([]);
    expect(
      fields(
        outsideOf(
          applies,
          vessel({ services: ['pilot'], waters: 'offshore', builtOn: '2009-04-30', decked: false }),
        ),
      ),
    ).toEqual(['services outside', 'waters outside', 'builtFrom outside', 'decked outside']);
    expect(fields(outsideOf(applies, vessel({ builtOn: '2010-01-01' })))).toEqual([
      'builtBefore outside',
    ]);
    expect(
      fields(
        outsideOf(applies, vessel({ services: null, waters: null, builtOn: null, decked: null })),
      ),
    ).toEqual([
      'services not-given',
      'waters not-given',
      'builtFrom not-given',
      'builtBefore not-given',
      'decked not-given',
    ]);
    expect(outsideOf({}, vessel({ services: null, lengthsM: {} }))).toEqual([]);
  });
});

describe('whether a clause is asked', () => {
  const clause = SPAIN_FISHING.clauses[0]!;
  it('goes by condition, hulls, deck and service; not given is neither', () => {
    const on = (more: object, made: Made = {}) =>
      isAsked({ ...clause, ...more }, madeEvidence(made));
    expect(on({})).toBe(true);
    expect(on({ conditions: ['arrival'] })).toBe(false);
    expect(on({ hulls: 'multi' })).toBe(false);
    expect(on({ decked: false })).toBe(false);
    expect(on({ services: ['towing'] })).toBe(false);
    expect(on({}, { vessel: { hulls: null } })).toBeNull();
    expect(on({ conditions: ['arrival'] }, { vessel: { hulls: null } })).toBe(false);
    expect(on({ services: ['towing'] }, { vessel: { services: null } })).toBeNull();
    expect(on({ decked: true }, { vessel: { decked: null } })).toBeNull();
  });

  it('with a factor on its limits for some services', () => {
    expect(factorFor(clause, vessel())).toBe(1);
    expect(factorFor(clause, vessel({ services: ['fishing', 'beam-trawling'] }))).toBe(1.2);
    expect(factorFor(clause, vessel({ services: null }))).toBeNull();
    expect(factorFor(SPAIN_FISHING.clauses.at(-1)!, vessel({ services: null }))).toBe(1);
  });
});
