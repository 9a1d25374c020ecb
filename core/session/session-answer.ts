import { Fault } from '../fault/fault.ts';
import type { TestOpened } from '../record/line.ts';
import { type Answer, answerWithBudget, type Causes } from '../reduction/budget.ts';
import type { GmProblem } from '../reduction/gm.ts';
import { type MomentOfState, momentsOfMoves } from '../shift/moment.ts';
import { certificateAt } from './heel-by-certificate.ts';
import type { SessionState } from './session.ts';
import type { DayInstrument, DayRow } from './session-rows.ts';

/**
 * Length of a hand-read pendulum or span of a tube, taped on board: its standard uncertainty, mm,
 * taken because nobody states one. Our setting.
 */
const HAND_LENGTH_UNCERTAINTY_MM = 2;
/** A recorded moment may differ from that of the recorded moves by no more: rounding. */
const SAME_MOMENT_TM = 1e-6;

/** Moments by state, from the moves; a recorded moment that contradicts them is a fault. */
export function sessionMoments(session: SessionState, test: TestOpened): MomentOfState[] {
  const moments = momentsOfMoves(
    test.weights,
    session.states.map((state) => state.moves),
  );
  moments.forEach(({ heelingMomentTM }, k) => {
    const recorded = session.states[k]!.heelingMomentTM;
    if (Math.abs(recorded - heelingMomentTM) > SAME_MOMENT_TM) {
      throw new Fault(
        'input-contradiction',
        `state ${session.states[k]!.state}`,
        `recorded moment ${recorded} t.m, that of the moves ${heelingMomentTM} t.m`,
      );
    }
  });
  return moments;
}

/** GM and KG of the rows, classical or with the metacentre's movement taken out. */
export function answerOfRows(
  session: SessionState,
  test: TestOpened,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  metacentreMovement: number,
): Answer {
  const moments = sessionMoments(session, test);
  const momentOf = (row: DayRow): MomentOfState => moments[row.state]!;
  const problem: GmProblem = {
    displacement: test.particulars.displacementT,
    heelingMoments: rows.map((row) => momentOf(row).heelingMomentTM),
    verticalMoments: rows.map((row) => momentOf(row).verticalMomentTM),
    tangents: rows.map((row) => row.tangents),
    metacentreMovement,
  };
  return answerWithBudget(problem, causesOfTest(session, test, rows.map(momentOf), used));
}

/** What is known of a test's measured things besides the scatter, for moments of states done or planned. */
export function causesOfTest(
  session: SessionState,
  test: TestOpened,
  moments: readonly MomentOfState[],
  used: readonly DayInstrument[],
): Causes {
  const { kmM, kmUncertaintyM, displacementUncertaintyT } = test.particulars;
  return {
    displacementUncertainty: displacementUncertaintyT,
    km:
      kmM === null || kmUncertaintyM === null
        ? null
        : { value: kmM, standardUncertainty: kmUncertaintyM },
    metacentreMovementUncertainty: 0,
    together: [],
    weights: test.weights.map(({ weight, massT, massUncertaintyT }, k) => ({
      weight,
      mass: massT,
      massUncertainty: massUncertaintyT,
      moved: moments.map(({ moved }) => ({ y: moved[k]!.yM, z: moved[k]!.zM })),
    })),
    massScaleUncertainty: 0,
    distanceUncertainty: test.distanceUncertaintyM,
    momentScaleUncertainty: 0,
    instruments: used.map((one) => scaleOfInstrument(session, one)),
    angleScaleUncertainty: 0,
  };
}

/** What is left of one instrument's scale: its certificate's share, or by hand that of its length. */
export function scaleOfInstrument(
  session: SessionState,
  { instrument, sensor, fromLine, label, readByHand }: DayInstrument,
): Causes['instruments'][number] {
  if (readByHand) {
    const lengths = session.states.flatMap((state) =>
      state.handReadings
        .filter((one) => one.reading.instrument === instrument)
        .map((one) => one.reading.lengthMm),
    );
    const scaleUncertainty = HAND_LENGTH_UNCERTAINTY_MM / Math.min(...lengths);
    return { instrument, scaleUncertainty, space: 'tangent' };
  }
  const mounting = session.mountings.find((one) => one.instrument === sensor);
  const certificate = sensor === null ? undefined : certificateAt(session, sensor, fromLine);
  if (mounting === undefined || certificate === undefined) {
    throw new Fault('instrument-uncalibrated', instrument, 'no mounting or certificate');
  }
  return {
    instrument: label,
    scaleUncertainty: certificate.scaleUncertainty,
    standard: certificate.standard,
    space: mounting.kind === 'inclinometer' ? 'sine' : 'tangent',
  };
}
