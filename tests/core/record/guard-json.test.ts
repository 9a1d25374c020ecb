import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonTextDanger, MOST_JSON_DEPTH } from '#core/record/guard-json.ts';

describe('JSON text of a stranger', () => {
  it('is let through when it is plain', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.stringMatching(/^[a-z]{1,8}$/), fc.oneof(fc.string(), fc.double())),
        (object) => {
          expect(jsonTextDanger(JSON.stringify({ object }))).toBeNull();
        },
      ),
    );
  });

  it('is refused when it is nested too deep, and not when brackets stand in a string', () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);
    expect(jsonTextDanger(nested(MOST_JSON_DEPTH))).toBeNull();
    expect(jsonTextDanger(nested(MOST_JSON_DEPTH + 1))).toContain('nested');
    expect(jsonTextDanger(nested(1_000_000))).toContain('nested');
    expect(jsonTextDanger(JSON.stringify(`"\\${nested(100)}`))).toBeNull();
  });

  it('is refused when a key reaches into prototypes, however it is written', () => {
    for (const key of ['__proto__', 'constructor', 'prototype'])
      expect(jsonTextDanger(`{"a":{"${key}" : {"x":1}}}`)).toContain('prototypes');
    expect(jsonTextDanger('{"\\u005f_proto__":{"x":1}}')).toContain('escaped');
    expect(jsonTextDanger('{"said":"the __proto__ of it"}')).toBeNull();
  });
});
