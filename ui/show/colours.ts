/** The tokens a canvas needs, read when it draws so that a change of theme is followed. */
export interface Colours {
  readonly ink: string;
  readonly pencil: string;
  readonly line: string;
  readonly rule: string;
  readonly grid: string;
  readonly sheet: string;
  readonly act: string;
  readonly notice: string;
  readonly noticeWash: string;
}

export function coloursOf(element: Element): Colours {
  const style = getComputedStyle(element);
  const token = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: token('--ink'),
    pencil: token('--pencil'),
    line: token('--line'),
    rule: token('--rule'),
    grid: token('--grid'),
    sheet: token('--sheet'),
    act: token('--act'),
    notice: token('--notice'),
    noticeWash: token('--notice-wash'),
  };
}
