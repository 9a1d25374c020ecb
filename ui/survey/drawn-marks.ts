import type { Place } from '#core/record/line.ts';
import type { SessionState } from '#core/session/session.ts';
import { entriesOf } from '#core/session/survey-state.ts';
import { fixed } from '../show/figure.ts';

/** What a step draws on the vessel; all else is left out, so that a picture says one thing. */
export type DrawnKind = 'freeboard' | 'mark' | 'tank' | 'item' | 'person' | 'weight';

/** One thing where it is. */
export interface DrawnMark {
  readonly kind: DrawnKind;
  readonly key: string;
  readonly at: Place;
  /** Beside it: what was read, or its mass. */
  readonly figure: string;
  /** Of a tank: how far it reaches from its middle. */
  readonly reach: Place | null;
  /** Its symbol is hollow: put on, still to be fitted. */
  readonly hollow: boolean;
}

const sideY = (side: string, halfBreadthM: number) =>
  side === 'centre' ? 0 : (side === 'starboard' ? 1 : -1) * halfBreadthM;

export function drawnMarks(session: SessionState, kinds: readonly DrawnKind[]): DrawnMark[] {
  return kinds.flatMap((kind) => MARKS[kind](session));
}

const MARKS: Readonly<Record<DrawnKind, (session: SessionState) => DrawnMark[]>> = {
  freeboard: ({ survey }) =>
    entriesOf(survey, 'freeboard').map(({ key, value }) =>
      plain('freeboard', key, `${fixed(value.freeboardM, 3)} m`, {
        xM: value.xM,
        yM: sideY(value.side, value.halfBreadthM),
        zM: value.heightM,
      }),
    ),
  mark: ({ survey }) =>
    entriesOf(survey, 'mark').map(({ key, value }) =>
      plain('mark', key, `${fixed(value.draughtM, 3)} m`, {
        xM: value.xM,
        yM: sideY(value.side, value.halfBreadthM),
        zM: value.zeroHeightM + value.draughtM,
      }),
    ),
  tank: ({ survey }) =>
    entriesOf(survey, 'tank').flatMap(({ key, value }) => {
      const corners =
        value.shape.kind === 'rectangular'
          ? [
              { xM: value.shape.fromXM, yM: value.shape.fromYM, zM: value.shape.fromZM },
              { xM: value.shape.toXM, yM: value.shape.toYM, zM: value.shape.toZM },
            ]
          : value.shape.sections.flatMap(({ xM, outline }) =>
              outline.map(({ yM, zM }) => ({ xM, yM, zM })),
            );
      const [low, high] = boundsOf(corners);
      const middle = (of: keyof Place) => (low[of] + high[of]) / 2;
      const half = (of: keyof Place) => (high[of] - low[of]) / 2;
      const figure =
        value.sounding === undefined
          ? `${fixed(value.volumeM3 ?? 0, 2)} m³`
          : `${fixed(value.sounding.depthM, 2)} m`;
      return [
        {
          ...plain('tank', key, figure, { xM: middle('xM'), yM: middle('yM'), zM: middle('zM') }),
          reach: { xM: half('xM'), yM: half('yM'), zM: half('zM') },
        },
      ];
    }),
  item: (session) => itemsOf(session, false),
  person: (session) => itemsOf(session, true),
  weight: ({ test, weightsAt }) =>
    (test?.weights ?? []).map(({ weight, massT, at }) =>
      plain('weight', weight, `${fixed(massT, 3)} t`, weightsAt[weight] ?? at),
    ),
};

function plain(kind: DrawnKind, key: string, figure: string, at: Place): DrawnMark {
  return { kind, key, at, figure, reach: null, hollow: false };
}

function itemsOf({ survey }: SessionState, people: boolean): DrawnMark[] {
  return entriesOf(survey, 'item').flatMap(({ key, value }) =>
    (value.kind === 'person') === people
      ? [
          {
            ...plain(people ? 'person' : 'item', key, `${fixed(value.massT, 3)} t`, value.at),
            hollow: value.kind === 'add' || value.kind === 'to-be-fitted',
          },
        ]
      : [],
  );
}

function boundsOf(corners: readonly Place[]): [Place, Place] {
  const most = (pick: (...values: number[]) => number): Place => ({
    xM: pick(...corners.map(({ xM }) => xM)),
    yM: pick(...corners.map(({ yM }) => yM)),
    zM: pick(...corners.map(({ zM }) => zM)),
  });
  return [most(Math.min), most(Math.max)];
}
