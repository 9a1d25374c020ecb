export type ScreenRole = 'architect' | 'witness' | 'technician';
const ROLES: readonly string[] = ['witness', 'technician'];

/** Who looks at this screen; every act is recorded under this name. */
export interface Person {
  readonly name: string;
  readonly role: ScreenRole;
}

export const MOST_NAME_LETTERS = 64;
const NAME_KEY = 'heelwright-name';

/** What the browser keeps between visits. A part of Storage, so that a test can hand in its own. */
export interface Kept {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

/** The role comes from `?role=`, the name from what this browser was told before. */
export function personFromAddress(search: string, kept: Kept): Person {
  const asked = new URLSearchParams(search).get('role') ?? '';
  const role = ROLES.includes(asked) ? (asked as ScreenRole) : 'architect';
  const name = kept.getItem(`${NAME_KEY}-${role}`)?.trim() ?? '';
  return { role, name: name === '' ? roleWord(role) : name.slice(0, MOST_NAME_LETTERS) };
}

export function keepName(person: Person, kept: Kept): void {
  kept.setItem(`${NAME_KEY}-${person.role}`, person.name);
}

export function roleWord(role: string): string {
  return role.charAt(0).toUpperCase() + role.slice(1);
}
