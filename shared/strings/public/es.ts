/** Las palabras del mapa público, del cartel y de las imágenes en español; se trata al lector de usted. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const es: Translation<typeof en> = {
  title: '{lake}: mejillones en el fondo del lago',
  lead: 'Unos {estimate} mejillones; podrían ser de {lower} a {upper}, en la parte del lago que se estudió.',
  leadWithoutRange:
    'Unos {estimate} mejillones en la parte del lago que se estudió. No se sabe cuánto puede desviarse esta cifra.',
  leadClusters:
    'Unos {estimate} grupos de mejillones; podrían ser de {lower} a {upper}, en la parte del lago que se estudió.',
  leadClustersWithoutRange:
    'Unos {estimate} grupos de mejillones en la parte del lago que se estudió. No se sabe cuánto puede desviarse esta cifra.',
  leadNothing:
    'Los buzos no detectaron mejillones donde buscaron. Eso no demuestra que no los haya en el lago.',
  leadCounted: {
    one: 'Los buzos contaron un mejillón donde buscaron. Todavía no hay una cifra para todo el lago.',
    other:
      'Los buzos contaron {count} mejillones donde buscaron. Todavía no hay una cifra para todo el lago.',
  },
  limit:
    'En la parte del lago que se estudió todavía podría haber hasta {upper} grupos. Un grupo es un solo mejillón o varios que están juntos.',
  cluster: 'Un grupo es un solo mejillón o varios que están juntos.',
  holds:
    'Esta parte abarca {hectares} ({acres}) del fondo del lago, de {from} a {to} m de profundidad (de {fromFeet} a {toFeet} pies).',
  searchedDepths:
    'Los buzos buscaron de {from} a {to} m de profundidad (de {fromFeet} a {toFeet} pies).',
  rest: 'Otras {hectares} ({acres}) del fondo del lago no están incluidas en esta cifra. Allí también puede haber mejillones.',
  far: 'El {share} de esta parte queda lejos de cualquier lugar donde se buscó; allí la cifra es menos segura.',
  missed: 'Los mejillones que los buzos no vieron no están incluidos en esta cifra.',
  rangeMeans:
    '¿Por qué un intervalo? Los buzos solo pueden revisar una pequeña parte del fondo y se les escapan algunos mejillones. Los intervalos calculados así contienen la cifra verdadera en cerca del {level} de los estudios. A esto se suman los errores de los mapas del lago.',
  effort: {
    one: 'Los buzos revisaron una línea en el fondo del lago ({days}), {squareMetres} m² en total.',
    other:
      'Los buzos revisaron {count} líneas en el fondo del lago ({days}), {squareMetres} m² en total.',
  },
  meansNotDetected:
    'Se buscó, sin detección: aun así puede haber mejillones. A los buzos se les escapan algunos, sobre todo los pequeños.',

  map: 'Mapa de {lake}',
  mapDescribed: {
    one: 'Mapa de {lake} con un lugar donde se buscó; se detectaron mejillones en {detected}. La tabla de abajo dice lo mismo con palabras.',
    other:
      'Mapa de {lake} con {count} lugares donde se buscó; se detectaron mejillones en {detected}. La tabla de abajo dice lo mismo con palabras.',
  },
  mapKeys:
    'Las flechas mueven el mapa, + y − lo acercan y lo alejan, 0 muestra todo el lago, Intro informa sobre el lugar bajo la cruz y N pasa al siguiente lugar donde se buscó.',
  mapHint: 'Haga clic en un lugar, o tóquelo, para leer sobre él.',
  zoomIn: 'Acercar',
  zoomOut: 'Alejar',
  wholeLake: 'Todo el lago',
  language: 'Idioma',
  close: 'Cerrar',
  northMark: 'Norte',
  key: 'Qué muestra el mapa',
  detected: 'Mejillones detectados',
  notDetected: 'Se buscó, sin detección',
  notSearched: 'No se buscó',
  surveyedPart: 'Límite de la parte estudiada',
  depth: 'Profundidad',
  depthBand: 'de {from} a {to} m (de {fromFeet} a {toFeet} pies)',
  kilometres: '{length} km',
  metres: '{length} m',

  spotDetected: {
    one: 'Los buzos buscaron aquí ({days}) y contaron un mejillón.',
    other: 'Los buzos buscaron aquí ({days}) y contaron {count} mejillones.',
  },
  spotNotDetected:
    'Los buzos buscaron aquí ({days}) y no detectaron mejillones. Es posible que se les hayan escapado algunos.',
  spotSquareDetected: {
    one: 'Los buzos buscaron dentro de este cuadrado ({days}) y contaron un mejillón.',
    other: 'Los buzos buscaron dentro de este cuadrado ({days}) y contaron {count} mejillones.',
  },
  spotSquareNotDetected:
    'Los buzos buscaron dentro de este cuadrado ({days}) y no detectaron mejillones. Es posible que se les hayan escapado algunos.',
  spotInside:
    'Aquí no se buscó. El fondo y la profundidad se parecen a los de los lugares revisados; por eso este lugar está incluido en la cifra.',
  spotOutside:
    'Aquí no se buscó, y este lugar no está incluido en la cifra. Aquí también puede haber mejillones.',
  spotDepth:
    'El agua tiene aproximadamente de {from} a {to} m de profundidad (de {fromFeet} a {toFeet} pies).',
  spotLand: 'Esto no es parte del lago.',

  inWords: 'El mapa en palabras',
  places: 'Lugares donde se buscó',
  part: 'Parte del lago',
  result: 'Resultado',
  counted: 'Mejillones contados',
  when: 'Fecha',
  byDepth: 'Mejillones según la profundidad, en la parte estudiada',
  area: 'Fondo del lago',
  areaBoth: '{hectares} ({acres})',
  mussels: 'Mejillones, aproximadamente',
  couldBe: 'Podrían ser',
  fromTo: 'de {lower} a {upper}',
  partNorth: 'norte',
  partNorthEast: 'noreste',
  partEast: 'este',
  partSouthEast: 'sureste',
  partSouth: 'sur',
  partSouthWest: 'suroeste',
  partWest: 'oeste',
  partNorthWest: 'noroeste',
  partMiddle: 'centro',

  doHeading: 'Qué puede hacer usted',
  doLook:
    'Antes de salir de la orilla, revise la lancha, el remolque, el ancla, las redes y las botas. Quite todas las plantas, el barro y los animales.',
  doDrain:
    'En tierra, quite los tapones y deje salir toda el agua del motor, de la lancha, de los tanques y de los baldes.',
  doDry:
    'Deje que todo se seque por completo antes de llevarlo a otras aguas. Los mejillones jóvenes son tan pequeños que no se ven.',
  doKeep: 'Nunca lleve mejillones, agua del lago ni carnada viva de un lago a otro.',
  doTell:
    'Si ve mejillones en otro lago, tome una foto, anote el lugar y la fecha, y avise a las autoridades.',
  doNotTreat:
    'No eche nada al lago para matar mejillones. Puede dañar a los mejillones nativos y a otros animales, y puede estar prohibido por la ley.',
  doRules: 'Las normas locales tienen prioridad. Siga los letreros de su lago.',

  factLine: '{name}: {value}',
  about: 'Sobre este mapa',
  surveyed: 'Fecha del estudio',
  ask: 'A quién preguntar',
  nextUpdate: 'Próxima actualización',
  coarse:
    'Los lugares se muestran como cuadrados de {size} m. Cada uno representa lo que se revisó en algún punto dentro de él.',
  source: 'La orilla y las profundidades son las de los mapas del lago que se usaron.',
  notNavigation: 'No sirve para navegar ni para planear un buceo.',
};
