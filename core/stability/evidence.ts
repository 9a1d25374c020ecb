/**
 * What a clause of a rule set may ask of one loading condition. Who knows hull and weights answers;
 * clauses read nothing else. Metres, tonnes, radians, seconds; sides by name, heel here always
 * counted positive to the side asked about. `null` is "not known" or, where said, "does not happen":
 * a clause that needs what is not known is not judged.
 */

export const SIDES = ['starboard', 'port'] as const;
export type Side = (typeof SIDES)[number];

/**
 * How liquids in slack tanks are counted. `exact`: each surface stays level at every heel and trim.
 * `upright`: a loss of GM, sum of second moment times density, for all heels as a rise of KG.
 * `rd-543-2007`: Spain, RD 543/2007 annex II 5, moments by the coefficient k at half filling.
 */
export const FREE_SURFACE_METHODS = ['exact', 'upright', 'rd-543-2007'] as const;
export type FreeSurfaceMethod = (typeof FREE_SURFACE_METHODS)[number];

/**
 * Which openings are taken as open. `weathertight`: those alone that nothing closes weathertight.
 * `open-at-sea`: also those the crew keeps open at sea. `open-at-worst`: also those open at the worst
 * moment, hatches while fishing among them.
 */
export const OPENING_STATES = ['weathertight', 'open-at-sea', 'open-at-worst'] as const;
export type OpeningState = (typeof OPENING_STATES)[number];

/** What a condition stands for in the standard set; a clause may ask for one kind only. */
export const CONDITION_KINDS = [
  'lightship',
  'departure',
  'leaving-grounds',
  'arrival',
  'arrival-part-catch',
  'worst',
  'with-ice',
  'hold-flooded',
  'working',
  'heel-test',
  'other',
] as const;
export type ConditionKind = (typeof CONDITION_KINDS)[number];

/** Moments that heel her from outside. */
export const HEELING_MOMENTS = [
  'gear-pull',
  'lifting',
  'towing',
  'gear-outboard',
  'people',
  'wind',
] as const;
export type HeelingMomentKind = (typeof HEELING_MOMENTS)[number];

/** How a length was measured. `regulation`: as the vessel's authority defines it. */
export const LENGTH_MEASURES = [
  'overall',
  'hull',
  'waterline',
  'perpendiculars',
  'regulation',
] as const;
export type LengthMeasure = (typeof LENGTH_MEASURES)[number];

export const SERVICES = [
  'fishing',
  'beam-trawling',
  'workboat',
  'towing',
  'lifting',
  'passenger',
  'pilot',
  'pleasure',
  'cargo',
] as const;
export type Service = (typeof SERVICES)[number];

export const WATERS = ['sheltered', 'coastal', 'offshore', 'unrestricted'] as const;
export type Waters = (typeof WATERS)[number];

/** What does not change from one condition to the next. */
export interface VesselParticulars {
  readonly name: string;
  readonly lengthsM: Readonly<Partial<Record<LengthMeasure, number>>>;
  /** All she is used for. */
  readonly services: readonly Service[] | null;
  readonly waters: Waters | null;
  /** Day the keel was laid or the like, YYYY-MM-DD. */
  readonly builtOn: string | null;
  readonly hulls: 'mono' | 'multi' | null;
  readonly decked: boolean | null;
  /** Greatest moulded beam and depth amidships to the upper deck at side. */
  readonly beamM: number | null;
  readonly depthM: number | null;
  /** Enclosed superstructures over the full width: their length and the least height among them. */
  readonly superstructureLengthM: number | null;
  readonly superstructureHeightM: number | null;
  readonly sheerAtLeastStandard: boolean | null;
  /** Bilge keels, or lateral area of a bar keel, together. */
  readonly keelAreaM2: number | null;
  readonly bilge: 'round' | 'sharp' | null;
  /** Freeboard her authority assigned, m. */
  readonly assignedFreeboardM: number | null;
}

/**
 * Levers to one side with the liquids counted one way; the condition's own list is in them. Clauses
 * ask some thousand times, so both answer from samples already worked out. The same side and method
 * gives the same object again.
 */
export interface Levers {
  /** Levers are known from upright to this heel, at most 90 degrees. */
  readonly mostHeelRad: number;
  /** Righting lever, m; negative where she heels further by herself. 0 to `mostHeelRad`. */
  leverM(heelRad: number): number;
  /** Area under the lever between two heels, m rad, what lies below zero negative. */
  areaMRad(fromRad: number, toRad: number): number;
}

/** A moment from outside, to the side asked about. */
export interface HeelingMoment {
  readonly kind: HeelingMomentKind;
  /** As it was described: which gear, which load, which people. */
  readonly words: string;
  /** Heeling moment at a heel, t m. */
  momentTM(heelRad: number): number;
  /** What a heel test read under it, where one was made: this is then believed, not computed. */
  readonly measured: { readonly heelRad: number; readonly leastFreeboardM: number } | null;
}

/** What the wind sees of her in this condition. */
export interface Windage {
  readonly areaM2: number;
  /** Centroid of the area above the waterline, m. */
  readonly heightOverWaterM: number;
  /** Centroid of the area above half the draught, or above the centre of the area below water, m. */
  readonly leverM: number;
}

/** One cause of uncertainty, independent of the others. */
export interface EvidenceCause {
  readonly cause: string;
  readonly degreesOfFreedom: number;
  /** The same condition with this cause off by that many of its standard uncertainties. */
  moved(standardUncertainties: number): ConditionEvidence;
}

/** One loading condition as clauses may ask about it. Whatever is costly is asked for by a call. */
export interface ConditionEvidence {
  readonly name: string;
  readonly kind: ConditionKind;
  readonly vessel: VesselParticulars;
  readonly displacementT: number;
  /** Height of the centre of gravity with liquids as if solid. */
  readonly kgM: number;
  readonly meanDraughtM: number;
  /** Between perpendiculars, positive by the stern. */
  readonly trimM: number;
  /** Least freeboard to the deck at side, as she floats. */
  readonly leastFreeboardM: number;
  /** Length and beam of the waterline she floats at, block coefficient of what is below. */
  readonly waterlineLengthM: number;
  readonly waterlineBeamM: number;
  readonly blockCoefficient: number;
  readonly windage: Windage | null;
  readonly moments: readonly HeelingMoment[];
  /** Of the weights; empty where nothing is known of it, which `uncertaintyKnown` tells from none. */
  readonly causes: readonly EvidenceCause[];
  readonly uncertaintyKnown: boolean;
  gmFluidM(method: FreeSurfaceMethod): number;
  levers(side: Side, method: FreeSurfaceMethod): Levers;
  /** Where the deck edge comes under; null where it does not within 90 degrees. */
  deckEdgeRad(side: Side): number | null;
  /** Where the first opening taken as open comes under; null where none does within 90 degrees. */
  downfloodingRad(side: Side, opened: OpeningState): number | null;
  /** Least freeboard to the deck at side at a heel, m, negative when it is under; null if not known. */
  freeboardAtM(side: Side, heelRad: number): number | null;
}
