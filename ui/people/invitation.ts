import type { InvitationMessage } from '#core/wire/screen-message.ts';

/** The address that opens a screen by this invitation: its code stands where no server sees it. */
export function addressOf({ role, code }: InvitationMessage, url: string): string {
  return role === 'architect' ? `${url}#${code}` : `${url}?role=${role}#${code}`;
}

/** What to type on the machine of the boards. */
export function boardsCommand(invitation: InvitationMessage, url: string): string {
  const pin = url.startsWith('wss:') ? ` --pin ${invitation.keyFingerprint}` : '';
  return `heelwright log --receiver ${url} --pair ${invitation.code}${pin}`;
}

/** What phones read as "join this network", for networks of WPA and for open ones (`WIFI:`, common practice). */
export function wifiText(name: string, password: string): string {
  const escaped = (text: string) => text.replace(/([\\;,:"])/g, '\\$1');
  return password === ''
    ? `WIFI:T:nopass;S:${escaped(name)};;`
    : `WIFI:T:WPA;S:${escaped(name)};P:${escaped(password)};;`;
}
