import { expect, it } from 'vitest';
import { place, svgPath, svgPicture, svgShape, svgWords } from '#core/report/svg.ts';

it('lets no word speak as markup', () => {
  const picture = svgPicture(10, 10, 'a < b', [svgWords(1, 2, '<script>"&"</script>')]);
  expect(picture).not.toContain('<script>');
  expect(picture).toContain('&lt;script&gt;&quot;&amp;&quot;');
  expect(picture).toContain('<title>a &lt; b</title>');
});

it('draws lines and shapes', () => {
  expect(svgPath('M0 0L1 1', { dash: '2 2' })).toContain('stroke-dasharray="2 2"');
  expect(svgShape('M0 0Z', false)).toContain('fill="#ffffff"');
  expect(place(1 / 3)).toBe('0.33');
});
