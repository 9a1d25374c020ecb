/**
 * Time is handed in everywhere: nothing in core, device or receiver asks the machine by itself.
 * Intervals and the order of acts use the monotonic reading; the wall reading is for people.
 */
export interface Clock {
  /** Seconds since an arbitrary start, never going back. In a paced demo it runs faster than the wall. */
  monotonicS(): number;
  /** Milliseconds since 1970 UTC as a person would read them. May step. */
  wallMs(): number;
}
