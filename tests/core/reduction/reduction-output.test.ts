import { expect, test } from 'vitest';
import { z } from 'zod';
import { reductionOutput } from '#core/reduction/reduction-output.ts';

test('the output has a JSON Schema with its version and no field left open', () => {
  const schema = z.toJSONSchema(reductionOutput) as {
    properties: Record<string, { const?: number }>;
    additionalProperties: boolean;
  };
  expect(schema.properties['heelwrightReduction']!.const).toBe(1);
  expect(schema.additionalProperties).toBe(false);
});
