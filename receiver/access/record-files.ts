import { documentInWorker } from '../export/document-link.ts';
import type { ServerSettings } from '../server.ts';
import { type PhotographParts, servePhotograph } from './photographs.ts';
import { RecordCopies, type RecordCopyParts } from './record-copy.ts';
import { RecordDocuments } from './record-documents.ts';

/** The routes by which people take the record and its documents away. */
export function recordFiles(
  parts: RecordCopyParts & PhotographParts,
): Pick<ServerSettings, 'recordCopy' | 'document' | 'photograph'> {
  const copies = new RecordCopies(parts);
  const documents = new RecordDocuments({ ...parts, make: documentInWorker });
  return {
    recordCopy: (request, response, way) => copies.serve(request, response, way),
    photograph: (request, response, way, line) =>
      void servePhotograph(parts, request, response, way, line),
    document: (request, response, way, name) => documents.serve(request, response, way, name),
  };
}
