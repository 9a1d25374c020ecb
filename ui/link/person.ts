import type { PersonRole } from '#core/wire/role-acts.ts';

/** Who looks at this screen; every act is recorded under this name. */
export interface Person {
  readonly name: string;
  readonly role: PersonRole;
}

export const MOST_NAME_LETTERS = 64;
const NAME_KEY = 'heelwright-name';

/** What the browser keeps between visits. A part of Storage, so that a test can hand in its own. */
export interface Kept {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/** The name this browser was told before for this role; empty where none was. */
export function keptName(role: PersonRole | null, kept: Kept): string {
  const name = role === null ? null : kept.getItem(`${NAME_KEY}-${role}`);
  return (name?.trim() ?? '').slice(0, MOST_NAME_LETTERS);
}

export function keepName(person: Person, kept: Kept): void {
  kept.setItem(`${NAME_KEY}-${person.role}`, person.name);
}

export function roleWord(role: string): string {
  return role.charAt(0).toUpperCase() + role.slice(1);
}
