/** What of the survey is still to be entered, at which step of the day, and why it matters. */
export interface Missing {
  readonly step: 'prepare' | 'survey' | 'closing';
  /** Part of that step: hull, freeboards, water. */
  readonly part: string;
  readonly what: string;
  readonly why: string;
}
