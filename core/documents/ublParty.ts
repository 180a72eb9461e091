import { textLines } from './letter.ts';
import { leaf, tree, type Xml } from './xml.ts';

/** Either side of a document. */
export type UblPartyFacts = {
  readonly name: string;
  readonly address: string;
  readonly email: string;
  readonly phone: string;
  readonly country: string;
  readonly taxNumber: string;
};

/**
 * A party. A tax number with a country prefix is a VAT identifier (BT-31, BT-48), any other a local registration
 * (BT-32); outside the scope of tax neither may stand (BR-O-02). The legal entity carries the number too (BR-CO-26).
 */
export function ublParty(party: UblPartyFacts, outsideTax: boolean): Xml {
  const [street = '', second = '', ...rest] = textLines(party.address);
  const scheme = /^[A-Z]{2}/.test(party.taxNumber) ? 'VAT' : 'TAX';
  return tree(
    'cac:Party',
    tree('cac:PartyName', leaf('cbc:Name', party.name)),
    tree(
      'cac:PostalAddress',
      leaf('cbc:StreetName', street),
      leaf('cbc:AdditionalStreetName', second),
      tree('cac:AddressLine', leaf('cbc:Line', rest.join(', '))),
      tree('cac:Country', leaf('cbc:IdentificationCode', party.country)),
    ),
    outsideTax || party.taxNumber === ''
      ? ''
      : tree(
          'cac:PartyTaxScheme',
          leaf('cbc:CompanyID', party.taxNumber),
          tree('cac:TaxScheme', leaf('cbc:ID', scheme)),
        ),
    tree(
      'cac:PartyLegalEntity',
      leaf('cbc:RegistrationName', party.name),
      leaf('cbc:CompanyID', party.taxNumber),
    ),
    tree('cac:Contact', leaf('cbc:Telephone', party.phone), leaf('cbc:ElectronicMail', party.email)),
  );
}
