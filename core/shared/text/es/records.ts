import type { PaperKey } from '../paperKeys.ts';

/** The record of a car, its care, messages and calendar in Spanish. */
export const esRecords = {
  'doc.record.arrival': 'Hoja de recepción',
  'doc.record.handover': 'Hoja de entrega',
  'doc.record.mileage': 'Kilometraje',
  'doc.record.keys': 'Llaves',
  'doc.record.belongings': 'En el vehículo',
  'doc.record.pictures': 'Fotos',
  'doc.record.pictures.none': 'no se permite ninguna',
  'doc.record.pictures.record': 'solo para el archivo del taller',
  'doc.record.pictures.publish': 'para el archivo del taller, y pueden mostrarse a otros',
  'doc.record.note': 'Nota',
  'doc.record.damage': 'Daños existentes',
  'doc.record.damageLine': '{panel}: {note}',
  'doc.record.done': 'Trabajos realizados',
  'doc.record.nothingDone': 'No se ha trabajado en el vehículo.',
  'doc.record.stays': 'Lo que se acordó dejar',
  'doc.record.film': 'Espesor que queda',
  'doc.record.lowestAfter': 'tras el trabajo',
  'doc.record.filmNote':
    'Medido con un medidor de espesor en puntos sueltos; cada valor tiene la incertidumbre del medidor, y ningún punto vale para un borde.',
  'doc.record.word.arrival': 'Conforme: {name} ({way}), {when}.',
  'doc.record.word.handover': 'Recogido por {name} ({way}), {when}.',
  'doc.record.by': 'Por el taller: {name}',
  'record.way.signature': 'con firma',
  'record.way.printedForm': 'firma en la hoja impresa',
  'record.way.spoken': 'de palabra',
  'card.panel': 'panel',
  'card.lowest': 'medición más baja',
  'card.mayTake': 'aún puede quitarse',

  'doc.care': 'Consejos de cuidado',
  'doc.care.dry':
    'Mantenga seca la protección recién aplicada las primeras 24 horas: sin lluvia, sin rocío, sin lavados. Seque las gotas a toques con un paño suave y limpio; no frote.',
  'doc.care.noWash': 'Durante 7 días, ni champú, ni limpiador, ni cera, ni pulimento encima.',
  'doc.care.spots':
    'Esos días no aparque bajo árboles ni junto a aspersores: las gotas que se secan pueden dejar marcas permanentes.',
  'doc.care.thin':
    'El lijado al agua quita barniz para siempre: ahí es más fino que antes. No deje que nadie vuelva a lijarlo, ni siquiera en un punto, sin medir antes el espesor.',
  'doc.care.sun':
    'El barniz más fino aguanta menos sol: manténgalo bajo cera, sellador o recubrimiento, y a la sombra cuando pueda.',
  'doc.care.birds':
    'Quite enseguida excrementos de pájaro, resina e insectos con mucha agua y un paño suave y limpio. No rasque, no limpie en seco.',
  'doc.care.byHand':
    'Aclare primero y luego lave a mano de arriba abajo con una manopla limpia y champú de pH neutro. Seque con toallas suaves y limpias.',
  'doc.care.noBrushes':
    'Sin túnel de cepillos, sin quitar el polvo en seco, sin limpiadores abrasivos ni domésticos.',
  'doc.care.readFirst':
    'La pintura no puede pulirse sin límite: haga medir su espesor antes de que alguien vuelva a pulirla a máquina.',
  'doc.care.sheet':
    'Si la ficha del fabricante del recubrimiento dice otra cosa, manda la ficha. Pregúntenos antes de probar.',
  'doc.care.rules':
    'Si la ficha del fabricante de la pintura o de lo que le aplique, o las normas de su lugar, dicen otra cosa, mandan ellas.',

  'doc.mail.arrivalSubject': 'Su {vehicle} está con nosotros',
  'doc.mail.arrivalBody':
    'Buenos días, {name}:\n\nAdjuntamos lo que anotamos al recibir su {vehicle}: llaves, kilometraje, contenido y daños existentes.\n\n{shop}\n{phone}',
  'doc.mail.handoverSubject': 'Su {vehicle}, entrega',
  'doc.mail.handoverBody':
    'Buenos días, {name}:\n\nAdjuntamos la hoja de entrega de su {vehicle}: lo que se hizo, lo que queda, el espesor restante y cómo cuidarlo.\n\n{shop}\n{phone}',
  'doc.mail.quoteSubject': 'Presupuesto {number} para su {vehicle}',
  'doc.mail.quoteBody':
    'Buenos días, {name}:\n\nAdjuntamos nuestro presupuesto {number} para su {vehicle}, válido hasta el {until}. También dice lo que el pulido no corrige.\n\n¿Está de acuerdo? Responda con la opción que elija.\n\n{shop}\n{phone}',
  'doc.mail.invoiceSubject': 'Factura {number}',
  'doc.mail.invoiceBody':
    'Buenos días, {name}:\n\nAdjuntamos la factura {number} del {day} por {amount}, a pagar a más tardar el {due}.\n\n{shop}\n{phone}',
  'doc.mail.creditSubject': 'Factura rectificativa {number}',
  'doc.mail.creditBody':
    'Buenos días, {name}:\n\nAdjuntamos la factura rectificativa {number} del {day} por {amount}.\n\n{shop}\n{phone}',
  'bays.calendar.dropOff': 'Entrega {who}',
  'bays.calendar.pickUp': 'Recogida {who}',
} as const satisfies Partial<Record<PaperKey, string>>;
