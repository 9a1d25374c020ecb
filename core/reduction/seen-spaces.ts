import { z } from 'zod';

/** A tank, bilge or void space that was looked into on the day. */
export const seenSpace = z.strictObject({
  space: z.string().min(1).max(64),
  sounded: z.boolean(),
  /** Opened and seen with the eye, not only sounded. */
  opened: z.boolean(),
  /** Who looked. */
  by: z.string().min(1).max(64).optional(),
});
export type SeenSpace = z.infer<typeof seenSpace>;

/**
 * Evidence on liquid that keeps its full width, which leaves the line straight: excluded only where
 * every space entered was sounded, opened and seen, with who looked. Otherwise it says what is
 * missing. `written`: the words of the test, which alone exclude nothing. Null where nothing is said.
 */
export function seenSpacesEvidence(
  spaces: readonly SeenSpace[],
  written: string | undefined,
): string | null {
  const said = written === undefined ? '' : `; written: ${written}`;
  if (spaces.length === 0) {
    return written === undefined
      ? null
      : `not excluded, no space is entered as sounded, opened and seen${said}`;
  }
  const short = spaces.flatMap(({ space, sounded, opened, by }) => {
    const missing = [
      ...(sounded ? [] : ['not sounded']),
      ...(opened ? [] : ['not opened']),
      ...(by === undefined ? ['nobody named who looked'] : []),
    ];
    return missing.length === 0 ? [] : [`${space} (${missing.join(', ')})`];
  });
  if (short.length > 0) return `not excluded: ${short.join('; ')}${said}`;
  const seen = spaces.map(({ space, by }) => `${space} by ${by}`).join(', ');
  return `sounded, opened and seen: ${seen}${said}`;
}
