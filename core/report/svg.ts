/** Drawing on a page as SVG: black and white, thin lines, words in the page's own face. */

export const SVG_INK = '#101418';
export const SVG_PENCIL = '#6a717a';
export const SVG_RULE = '#c8ccd1';

export interface LineStyle {
  readonly width?: number;
  readonly colour?: string;
  readonly dash?: string;
}

export function svgPath(d: string, style: LineStyle = {}): string {
  const { width = 0.8, colour = SVG_INK, dash } = style;
  const dashed = dash === undefined ? '' : ` stroke-dasharray="${dash}"`;
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}"${dashed}/>`;
}

export function svgShape(d: string, filled: boolean): string {
  return `<path d="${d}" fill="${filled ? SVG_INK : '#ffffff'}" stroke="${SVG_INK}" stroke-width="0.8"/>`;
}

export interface WordStyle {
  readonly size?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly colour?: string;
}

export function svgWords(x: number, y: number, text: string, style: WordStyle = {}): string {
  const { size = 7.5, anchor = 'start', colour = SVG_INK } = style;
  return (
    `<text x="${place(x)}" y="${place(y)}" font-family="sans-serif" font-size="${size}" ` +
    `text-anchor="${anchor}" fill="${colour}">${escaped(text)}</text>`
  );
}

/** A picture of so many points; `title` is read aloud where it stands alone. */
export function svgPicture(width: number, height: number, title: string, parts: string[]): string {
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" ` +
    `viewBox="0 0 ${width} ${height}"><title>${escaped(title)}</title>${parts.join('')}</svg>`
  );
}

/** A place in a drawing, to a hundredth of a point. */
export function place(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
