import type { PaperKey } from '../paperKeys.ts';

/** The record of a car, its care, messages and calendar in French. */
export const frRecords = {
  'doc.record.arrival': 'Fiche de réception',
  'doc.record.handover': 'Fiche de restitution',
  'doc.record.mileage': 'Kilométrage',
  'doc.record.keys': 'Clés',
  'doc.record.belongings': 'Dans le véhicule',
  'doc.record.pictures': 'Photos',
  'doc.record.pictures.none': 'aucune autorisée',
  'doc.record.pictures.record': 'pour le dossier de l’atelier seulement',
  'doc.record.pictures.publish': 'pour le dossier de l’atelier, et peuvent être montrées',
  'doc.record.note': 'Remarque',
  'doc.record.damage': 'Dommages constatés',
  'doc.record.damageLine': '{panel}\u00a0: {note}',
  'doc.record.done': 'Travaux réalisés',
  'doc.record.nothingDone': 'Aucun travail n’a été fait sur le véhicule.',
  'doc.record.stays': 'Ce qui reste, comme convenu',
  'doc.record.film': 'Épaisseur restante',
  'doc.record.lowestAfter': 'après le travail',
  'doc.record.filmNote':
    'Mesuré au contrôleur d’épaisseur en des points isolés\u202f; chaque valeur a l’incertitude de l’appareil, et aucun point ne vaut pour une arête.',
  'doc.record.word.arrival': 'Accord de {name} ({way}), {when}.',
  'doc.record.word.handover': 'Véhicule repris par {name} ({way}), {when}.',
  'doc.record.by': 'Pour l’atelier\u00a0: {name}',
  'record.way.signature': 'par signature',
  'record.way.printedForm': 'sur la fiche imprimée',
  'record.way.spoken': 'de vive voix',
  'card.panel': 'élément',
  'card.lowest': 'mesure la plus basse',
  'card.mayTake': 'peut encore être enlevé',

  'doc.care': 'Conseils d’entretien',
  'doc.care.dry':
    'Gardez la protection fraîche au sec pendant les premières 24 heures\u00a0: ni pluie, ni rosée, ni lavage. Tamponnez les gouttes avec un chiffon doux et propre\u202f; ne frottez pas.',
  'doc.care.noWash': 'Pendant 7 jours, ni shampooing, ni nettoyant, ni cire, ni polish dessus.',
  'doc.care.spots':
    'Pendant ces jours, ne vous garez pas sous des arbres ni près d’arroseurs\u00a0: les gouttes qui sèchent peuvent laisser des marques durables.',
  'doc.care.thin':
    'Le ponçage à l’eau enlève du vernis pour toujours\u00a0: il y est plus mince qu’avant. Ne laissez personne le poncer de nouveau, même en un seul point, avant d’en avoir fait mesurer l’épaisseur.',
  'doc.care.sun':
    'Un vernis plus mince supporte moins le soleil\u00a0: gardez-le sous une cire, un scellant ou un revêtement, et à l’ombre autant que possible.',
  'doc.care.birds':
    'Enlevez aussitôt fientes, sève et insectes avec beaucoup d’eau et un chiffon doux et propre. Ne grattez pas, n’essuyez pas à sec.',
  'doc.care.byHand':
    'Rincez d’abord, puis lavez à la main de haut en bas, avec un gant propre et un shampooing au pH neutre. Séchez avec des serviettes douces et propres.',
  'doc.care.noBrushes':
    'Pas de lavage à brosses, pas de poussière essuyée à sec, pas de nettoyant abrasif ni ménager.',
  'doc.care.readFirst':
    'Une peinture ne se polit pas indéfiniment\u00a0: faites mesurer son épaisseur avant que quiconque la polisse de nouveau à la machine.',
  'doc.care.sheet':
    'Si la fiche du fabricant du revêtement dit autre chose, c’est elle qui décide. Demandez-nous avant d’essayer.',
  'doc.care.rules':
    'Si la fiche du fabricant de la peinture ou du produit que vous y mettez, ou les règles de votre lieu, disent autre chose, ce sont elles qui décident.',

  'doc.mail.arrivalSubject': 'Votre {vehicle} est chez nous',
  'doc.mail.arrivalBody':
    'Bonjour {name},\n\nvous trouverez ci-joint ce que nous avons noté à la réception de votre {vehicle}\u00a0: clés, kilométrage, contenu et dommages constatés.\n\n{shop}\n{phone}',
  'doc.mail.handoverSubject': 'Votre {vehicle}, restitution',
  'doc.mail.handoverBody':
    'Bonjour {name},\n\nvous trouverez ci-joint la fiche de restitution de votre {vehicle}\u00a0: ce qui a été fait, ce qui reste, l’épaisseur restante et les conseils d’entretien.\n\n{shop}\n{phone}',
  'doc.mail.quoteSubject': 'Devis n°\u00a0{number} pour votre {vehicle}',
  'doc.mail.quoteBody':
    'Bonjour {name},\n\nvous trouverez ci-joint notre devis n°\u00a0{number} pour votre {vehicle}, valable jusqu’au {until}. Il dit aussi ce que le polissage ne corrige pas.\n\nPour accepter, répondez-nous avec l’option choisie.\n\n{shop}\n{phone}',
  'doc.mail.invoiceSubject': 'Facture n°\u00a0{number}',
  'doc.mail.invoiceBody':
    'Bonjour {name},\n\nvous trouverez ci-joint la facture n°\u00a0{number} du {day}, d’un montant de {amount}, à régler au plus tard le {due}.\n\n{shop}\n{phone}',
  'doc.mail.creditSubject': 'Facture d’avoir n°\u00a0{number}',
  'doc.mail.creditBody':
    'Bonjour {name},\n\nvous trouverez ci-joint la facture d’avoir n°\u00a0{number} du {day}, d’un montant de {amount}.\n\n{shop}\n{phone}',
  'bays.calendar.dropOff': 'Dépôt {who}',
  'bays.calendar.pickUp': 'Retrait {who}',
} as const satisfies Partial<Record<PaperKey, string>>;
