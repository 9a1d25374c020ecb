import type { CannotShow } from '../reduction/cannot-show.ts';
import { seenSpacesEvidence } from '../reduction/seen-spaces.ts';
import type { SessionState } from './session.ts';
import { entriesOf, type SurveyState } from './survey-state.ts';

type Evidence = Partial<Record<CannotShow, string>>;

/** What the record holds on each thing no plot can show. What a person wrote of it stands first. */
export function sessionEvidence(session: SessionState): Evidence {
  const { survey } = session;
  const { evidence: written = {} } = entriesOf(survey, 'choices')[0]?.value ?? {};
  const spaces = entriesOf(survey, 'space').map(({ key, value }) => ({ space: key, ...value }));
  const liquid = seenSpacesEvidence(spaces, written['full-width-liquid']);
  const restraint = restraintEvidence(survey);
  return {
    ...statedEvidence(session),
    ...(restraint === null ? {} : { restraint }),
    ...anglesEvidence(session),
    ...written,
    ...(liquid === null ? {} : { 'full-width-liquid': liquid }),
  };
}

function statedEvidence({ test, survey }: SessionState): Evidence {
  if (test === null) return {};
  const { displacementT, displacementUncertaintyT, kmM, kmUncertaintyM } = test.particulars;
  const papers = distinct(test.weights.map((weight) => weight.certificate));
  const again = (rows: readonly { value: { by: string } }[], what: string) =>
    rows.length === 0
      ? []
      : [`${rows.length} ${what} by ${distinct(rows.map(({ value }) => value.by)).join(', ')}`];
  const masses = [
    ...(papers.length > 0 ? [`weight certificates ${papers.join(', ')}`] : []),
    ...again(entriesOf(survey, 'weight'), 'weighed or read again'),
  ];
  const distances = [
    ...(test.distanceUncertaintyM > 0
      ? [
          `stated, ± ${1000 * test.distanceUncertaintyM} mm in every distance, one standard uncertainty`,
        ]
      : []),
    ...again(entriesOf(survey, 'distance'), 'measured again'),
  ];
  return {
    ...(masses.length === 0 ? {} : { 'common-mass': masses.join('; ') }),
    ...(distances.length === 0 ? {} : { 'common-distance': distances.join('; ') }),
    displacement: `stated, ${displacementT} ± ${displacementUncertaintyT} t, one standard uncertainty`,
    ...(kmM === null
      ? {}
      : {
          km: `stated, ${kmM} m${kmUncertaintyM === null ? '' : ` ± ${kmUncertaintyM} m, one standard uncertainty`}`,
        }),
  };
}

/** Only what was looked at: lines and fenders, by whom. */
function restraintEvidence(survey: SurveyState): string | null {
  const seen = entriesOf(survey, 'check').filter(
    ({ key, value }) => value.holds && (key === 'lines-slack' || key === 'clear-of-fenders'),
  );
  if (seen.length === 0) return null;
  const words = { 'lines-slack': 'lines slack', 'clear-of-fenders': 'clear of fenders' } as const;
  const said = seen.map(({ key }) => words[key as keyof typeof words]).join(', ');
  return `${said}, as entered by ${distinct(seen.map(({ written }) => written.author)).join(', ')}`;
}

function anglesEvidence({ certificates, states }: SessionState): Evidence {
  const methods = distinct(certificates.map((certificate) => certificate.method));
  const byHand = distinct(
    states.flatMap((state) => state.handReadings.map((one) => one.reading.instrument)),
  );
  const angles = [
    ...(methods.length > 0 ? [`calibrated by ${methods.join(', ')}`] : []),
    ...(byHand.length > 0 ? [`read by hand beside: ${byHand.join(', ')}`] : []),
  ];
  return angles.length === 0 ? {} : { 'common-angle': angles.join('; ') };
}

function distinct(texts: readonly string[]): string[] {
  return [...new Set(texts.filter((text) => text !== ''))];
}
