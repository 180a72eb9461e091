import { createRequire } from 'node:module';
import type PDFDocument from 'pdfkit';

const require = createRequire(import.meta.url);
let library: typeof PDFDocument | undefined;

/**
 * The PDF library, loaded when the first document is made: it takes 20 MB in every thread that loads it, and of the
 * core's three threads only the one that answers reads makes documents.
 */
export function pdfDocument(): typeof PDFDocument {
  library ??= require('pdfkit') as typeof PDFDocument;
  return library;
}
