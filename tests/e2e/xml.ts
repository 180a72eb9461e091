import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { xmlRegisterFsInputProviders } from 'libxml2-wasm/lib/nodejs.mjs';

const NAMES = {
  cbc: 'urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2',
  cac: 'urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2',
};

/** The texts at these paths of a UBL document, each once; an absent one is ''. */
export function textsIn(bytes: Uint8Array, ...paths: readonly string[]): readonly string[] {
  const doc = XmlDocument.fromBuffer(bytes);
  try {
    return paths.map((at) => {
      const found = doc.get(at, NAMES);
      return found && 'content' in found ? String(found.content) : '';
    });
  } finally {
    doc.dispose();
  }
}

/** Throws where the document breaks the UBL 2.1 schema; without RAKELIGHT_REFERENCE there is none to hold it to. */
export function heldToSchema(bytes: Uint8Array, root: 'Invoice' | 'CreditNote'): boolean {
  const reference = process.env['RAKELIGHT_REFERENCE'] ?? '';
  const file = path.join(reference, `en16931/ubl-2.1-xsd/maindoc/UBL-${root}-2.1.xsd`);
  if (reference === '' || !existsSync(file)) return false;
  xmlRegisterFsInputProviders();
  const schema = XmlDocument.fromBuffer(readFileSync(file), { url: file });
  const doc = XmlDocument.fromBuffer(bytes);
  const validator = XsdValidator.fromDoc(schema);
  try {
    validator.validate(doc);
    return true;
  } finally {
    validator.dispose();
    doc.dispose();
    schema.dispose();
  }
}
