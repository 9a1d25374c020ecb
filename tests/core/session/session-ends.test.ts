import { describe, expect, it } from 'vitest';
import { endsOfSession, endsUncertainties } from '#core/session/session-ends.ts';
import { compareEnds } from '#core/survey/closing.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const POINTS = ['P1', 'P2', 'S1', 'S2'].map((point) => ({
  point,
  side: point.startsWith('P') ? ('port' as const) : ('starboard' as const),
}));
const freeboards = (freeboardM: number, occasion: 'before' | 'closing') =>
  POINTS.map(({ point, side }) =>
    entered(
      'freeboard',
      point,
      { side, xM: 5, halfBreadthM: 2, heightM: 2.5, freeboardM },
      { occasion },
    ),
  );
const water = (densityKgM3: number, occasion: 'before' | 'closing') =>
  entered('water', 'amidships', { densityKgM3, temperatureC: null }, { occasion });
const VESSEL = entered('vessel', 'vessel', {
  lengthM: 15,
  readingUncertaintyM: 0.003,
  hydrometerUncertaintyKgM3: 0.5,
  freeSurfaceUncertaintyShare: 0.1,
});
const person = (note: string, occasion: 'before' | 'closing') =>
  entered(
    'item',
    'Deckhand',
    {
      kind: 'person',
      massT: 0.08,
      massUncertaintyT: 0.005,
      at: { xM: 4, yM: 0, zM: 2 },
      placeUncertaintyM: 0.1,
      note,
    },
    { occasion },
  );

const dayWith = (...rows: ReturnType<typeof entered>[]) => ({
  ...aDay(),
  survey: surveyOf([VESSEL, ...rows]),
});
function foundOf(session: ReturnType<typeof dayWith>) {
  const { before, after } = endsOfSession(session);
  const limits = endsUncertainties(session, { freeboardM: null, tonnesPerM: 60 });
  return compareEnds(before, after, limits!);
}

describe('the ends of a day', () => {
  it('takes the zero from the first state and from the last one with its moment', () => {
    const session = aDay();
    const { before, after } = endsOfSession(session);
    const zeroes = [0, 8].map((state) =>
      session.states[state]?.reading?.instruments.map(({ heelDeg }) => heelDeg),
    );
    expect([before, after].map((end) => end.zeros.map(({ heelDeg }) => heelDeg))).toEqual(zeroes);
    // States 1 to 3 have other moments, so nothing stands at the end of a day broken off there.
    expect(endsOfSession({ ...session, states: session.states.slice(0, 4) }).after.zeros).toEqual(
      [],
    );
  });

  it('leaves out a sensor that was put down anew: its zero is another one', () => {
    const session = aDay();
    const [first] = session.states[0]?.reading?.instruments ?? [];
    const written = session.testOpened!;
    const remounted = [
      { instrument: first!.instrument, certificate: null, written, reason: 'knocked' },
    ];
    const { before } = endsOfSession({ ...session, remounted });
    expect(before.zeros.map(({ instrument }) => instrument)).not.toContain(first!.instrument);
  });

  it('names a leak where all four freeboards fell by 12 mm, with the mass of it', () => {
    const found = foundOf(
      dayWith(
        ...freeboards(1.2, 'before'),
        ...freeboards(1.188, 'closing'),
        water(1025, 'before'),
        water(1025, 'closing'),
      ),
    );
    expect(found.causes).toContain('leak');
    expect(found.deeperM).toBeCloseTo(0.012, 12);
    expect(found.gainedT).toBeCloseTo(0.72, 12);
  });

  it('names who stands elsewhere, and what was not taken again', () => {
    const found = foundOf(dayWith(person('by weight B', 'before'), person('aft', 'closing')));
    expect(found.causes).toContain('people-moved');
    expect(found.advice.map(({ code, where }) => `${code} ${where}`)).toContain(
      'closing-not-taken water density',
    );
  });

  it('compares nothing while nobody said how well freeboards are read', () => {
    const session = aDay();
    expect(endsUncertainties(session, { freeboardM: 0.003, tonnesPerM: null })).toBeNull();
    const { value } = VESSEL as Extract<typeof VESSEL, { sheet: 'vessel' }>;
    const { readingUncertaintyM: _, ...unsaid } = value!;
    const survey = surveyOf([entered('vessel', 'vessel', unsaid)]);
    const scattering = endsUncertainties(
      { ...session, survey },
      { freeboardM: 0.007, tonnesPerM: null },
    );
    expect(scattering?.freeboardM).toBe(0.007);
  });
});
