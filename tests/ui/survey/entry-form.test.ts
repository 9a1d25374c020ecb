import { describe, expect, it } from 'vitest';
import { ENTRY_SHEETS } from '#core/record/entry-line.ts';
import { marramSurvey } from '#device/emulated/marram-survey.ts';
import { readForm, startOf, typedOf } from '#ui/survey/entry-form.ts';
import { FORMS, type FormName, formOf } from '#ui/survey/forms.ts';

const formNameOf = (sheet: string, value: object): FormName =>
  sheet === 'item' && (value as { kind?: string }).kind === 'person'
    ? 'person'
    : (sheet as FormName);

describe('the forms of the survey', () => {
  it('give back every row of a whole survey as it was opened, to the last digit', () => {
    const rows = marramSurvey(4).filter(({ sheet }) => sheet in FORMS);
    expect(new Set(rows.map(({ sheet }) => sheet)).size).toBeGreaterThan(5);
    for (const { sheet, key, value } of rows) {
      if (value === null) continue;
      const form = formOf(formNameOf(sheet, value), value);
      const { value: again, missing, wrong } = readForm(form, typedOf(form, value));
      expect([missing, wrong], `${sheet} ${key}`).toEqual([[], {}]);
      const plain = ENTRY_SHEETS[form.sheet].parse(again);
      // A flag that was never said is said as no by a form that asks for it.
      expect(plain, `${sheet} ${key}`).toEqual(
        sheet === 'tank' ? { partOfLightship: false, ...value } : value,
      );
    }
  });

  it('an empty form says what is missing and has no value', () => {
    for (const name of Object.keys(FORMS) as FormName[]) {
      const form = FORMS[name];
      const { value, missing } = readForm(form, startOf(form));
      if (name === 'space' || name === 'check') continue;
      expect(value, name).toBeNull();
      expect(missing.length, name).toBeGreaterThan(0);
    }
  });

  it('marks what cannot be read, and what the form of a line refuses', () => {
    const typed = { ...startOf(FORMS.water), densityKgM3: 'salt', temperatureC: '' };
    expect(Object.keys(readForm(FORMS.water, typed).wrong)).toEqual(['densityKgM3']);
    const below = readForm(FORMS.water, { ...typed, densityKgM3: '-1025' });
    expect(below.value).toBeNull();
    expect(Object.keys(below.wrong)).toEqual(['densityKgM3']);
    expect(readForm(FORMS.water, { ...typed, densityKgM3: '1025' }).value).toEqual({
      densityKgM3: 1025,
      temperatureC: null,
    });
  });

  it('asks for a sounding or a volume, never for both, and sends only the one', () => {
    const tank = {
      ...startOf(FORMS.tank),
      densityTM3: '0.84',
      'shape.fromXM': '2',
      'shape.toXM': '4',
      'shape.fromYM': '\u22121.5',
      'shape.toYM': '0',
      'shape.fromZM': '0.4',
      'shape.toZM': '1.4',
      volumeM3: '0.7',
    };
    expect(readForm(FORMS.tank, tank).missing).toContain('Sounding');
    expect(readForm(FORMS.tank, { ...tank, 'ask.by': 'volume' }).value).toEqual({
      densityTM3: 0.84,
      shape: {
        kind: 'rectangular',
        fromXM: 2,
        toXM: 4,
        fromYM: -1.5,
        toYM: 0,
        fromZM: 0.4,
        toZM: 1.4,
      },
      volumeM3: 0.7,
      partOfLightship: false,
    });
  });

  it('opening one row changes no other: what is constant is copied', () => {
    const typed = typedOf(FORMS.person, { kind: 'person', massT: 0.08 });
    readForm(FORMS.person, typed);
    expect(FORMS.person.constant).toEqual({ kind: 'person' });
    expect(FORMS.tank.constant).toEqual({ shape: { kind: 'rectangular' } });
  });

  it('a tank drawn by sections keeps its sections', () => {
    const outline = [
      { yM: 0, zM: 0 },
      { yM: 1, zM: 0 },
      { yM: 1, zM: 1 },
    ];
    const shape = { kind: 'sections', sections: [1, 2].map((xM) => ({ xM, outline })) };
    const value = { densityTM3: 1, shape, volumeM3: 0.2, partOfLightship: true };
    const form = formOf('tank', value);
    expect(readForm(form, typedOf(form, value)).value).toEqual(value);
  });
});
