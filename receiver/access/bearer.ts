import type { IncomingMessage, ServerResponse } from 'node:http';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import { ACCESS_VERSION } from '#core/wire/access-message.ts';
import type { AdmittedBy } from './doorkeeper.ts';
import type { WayIn } from './way-in.ts';

export type Admit = (text: string, way: WayIn) => AdmittedBy;

/**
 * Whose request for a file it is, as the digest of their token: architect, witness or technician.
 * The token comes in Authorization only, so that no other page and no link can fetch a file. Null:
 * the request was refused and answered.
 */
export function bearerOf(
  admit: Admit,
  request: IncomingMessage,
  response: ServerResponse,
  way: WayIn,
): string | null {
  try {
    return admitted(admit, request.headers.authorization, way);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    response.setHeader('WWW-Authenticate', 'Bearer');
    refuseFile(response, 401, error);
    return null;
  }
}

function admitted(admit: Admit, authorization: string | undefined, way: WayIn): string {
  const token = /^Bearer ([\w-]{1,100})$/.exec(authorization ?? '')?.[1];
  if (token === undefined) throw new Fault('access-not-said', 'record', 'no token is given');
  const message = { type: 'token', version: ACCESS_VERSION, token, name: '' };
  const { admitted: known, tokenSha256 } = admit(JSON.stringify(message), way);
  if (known.role === 'device')
    throw new Fault('act-not-yours', 'record', 'a board side takes no copy');
  return tokenSha256;
}

export function refuseFile(response: ServerResponse, status: number, { report }: Fault): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'application/json');
  response.setHeader('Cache-Control', 'no-store');
  response.end(JSON.stringify({ ...report, remedy: FAULTS[report.code].remedy }));
}

/** A file to be kept, under a name that is no path and no markup. */
export function setAttachment(response: ServerResponse, type: string, name: string): void {
  response.setHeader('Content-Type', type);
  response.setHeader('Content-Disposition', `attachment; filename="${plainName(name)}"`);
  response.setHeader('Cache-Control', 'no-store');
}

function plainName(name: string): string {
  return name.replace(/[^\w.-]/g, '_');
}
