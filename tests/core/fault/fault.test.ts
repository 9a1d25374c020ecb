import { describe, expect, it } from 'vitest';
import { FAULTS, Fault, type FaultCode } from '#core/fault/fault.ts';

describe('fault', () => {
  it('says its code, its meaning, the place and what to do', () => {
    const fault = new Fault('bus-no-answer', 'board fore, address 0x6a', 'no acknowledge');
    expect(fault.code).toBe('bus-no-answer');
    expect(fault.report).toEqual({
      code: 'bus-no-answer',
      where: 'board fore, address 0x6a',
      found: 'no acknowledge',
    });
    expect(fault.message).toContain('board fore, address 0x6a');
    expect(fault.message).toContain(FAULTS['bus-no-answer'].remedy);
  });

  it('has for every code a meaning without a full stop and a remedy that is a sentence', () => {
    for (const code of Object.keys(FAULTS) as FaultCode[]) {
      expect(code).toMatch(/^[a-z]+(-[a-z0-9]+)+$/);
      expect(FAULTS[code].means, code).not.toMatch(/[.!]$/);
      expect(FAULTS[code].remedy, code).toMatch(/^[A-Z].*[.]$/);
    }
  });
});
