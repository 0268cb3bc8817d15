/** Las palabras de la primera página del informe y de su versión corta en español; se trata al lector de usted. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const es: Translation<typeof en> = {
  heading: 'Mejillones en el fondo del lago',
  surveyed: '{lake}, muestreo: {days}',

  answer:
    'Unos {estimate} mejillones (intervalo de confianza del {level} %: {lower} a {upper}) en {hectares} ({acres}) de hábitat muestreado, de {from} a {to} m ({fromFeet} a {toFeet} pies) de profundidad.',
  answerWithoutInterval:
    'Unos {estimate} mejillones (no se pudo dar un intervalo) en {hectares} ({acres}) de hábitat muestreado, de {from} a {to} m ({fromFeet} a {toFeet} pies) de profundidad.',
  answerClusters:
    'Unos {estimate} grupos de mejillones (intervalo de confianza del {level} %: {lower} a {upper}) en {hectares} ({acres}) de hábitat muestreado, de {from} a {to} m ({fromFeet} a {toFeet} pies) de profundidad.',
  answerClustersWithoutInterval:
    'Unos {estimate} grupos de mejillones (no se pudo dar un intervalo) en {hectares} ({acres}) de hábitat muestreado, de {from} a {to} m ({fromFeet} a {toFeet} pies) de profundidad.',
  counted: {
    one: 'En los {squareMetres} m² recorridos, a profundidades de {from} a {to} m, se contó {count} mejillón.',
    other:
      'En los {squareMetres} m² recorridos, a profundidades de {from} a {to} m, se contaron {count} mejillones.',
  },
  missed:
    'Donde no buscó un segundo observador, lo que el primero pasó por alto no está en esta cifra.',
  far: 'El {areaShare} % de este hábitat, con el {musselsShare} % de la cifra, está más lejos de todo transecto que la distancia habitual entre transectos vecinos ({spacing} m).',
  farArea:
    'El {areaShare} % de este hábitat está más lejos de todo transecto que la distancia habitual entre transectos vecinos ({spacing} m).',
  nothingDetected:
    'No se detectaron mejillones en los {squareMetres} m² recorridos, a profundidades de {from} a {to} m.',
  nothingLimit:
    'Eso no demuestra que no los haya: pudieron pasarse por alto hasta {upper} grupos en {hectares} ({acres}) de hábitat muestreado, de {from} a {to} m ({fromFeet} a {toFeet} pies) de profundidad. Este límite superior del {level} % supone que se detectó cada grupo de la superficie recorrida; si alguno se pasó por alto, es mayor.',
  nothingNoLimit: 'Eso no demuestra que no los haya; sin un mapa del lago no hay límite para ello.',
  noMaps: 'No hay cifra para todo el lago, porque en la carpeta falta {files}.',
  noBed:
    'No hay cifra para todo el lago, porque ningún fondo cartografiado está dentro de los hábitats y profundidades recorridos.',
  along:
    'A lo largo de los transectos había unos {estimate} grupos por m² (intervalo de confianza del {level} %: {lower} a {upper}), corregidos por los que se pasaron por alto.',
  alongWithoutInterval:
    'A lo largo de los transectos había unos {estimate} grupos por m² (no se pudo dar un intervalo), corregidos por los que se pasaron por alto.',
  alongDetected:
    'A lo largo de los transectos había unos {estimate} grupos por m² (intervalo de confianza del {level} %: {lower} a {upper}); lo que se pasó por alto no está en esta cifra.',
  alongDetectedWithoutInterval:
    'A lo largo de los transectos había unos {estimate} grupos por m² (no se pudo dar un intervalo); lo que se pasó por alto no está en esta cifra.',

  howSure: 'Qué tan segura es la cifra',
  covers:
    'De cien muestreos como este, unos {level} darían un intervalo que contiene la cifra verdadera; cubre el azar de dónde estaban los mejillones y de lo que se detectó, no los errores de los mapas.',
  coversBootstrap:
    'De cien muestreos como este, unos {level} darían un intervalo que contiene la cifra verdadera, errores de los mapas aparte; al sortear de nuevo los transectos {replicates} veces resulta de {lower} a {upper}.',
  agrees:
    'Sin modelo de hábitat, solo con la superficie recorrida, hay {design} grupos por m², frente a {model} según el modelo: ambos concuerdan dentro de sus errores.',
  disagrees:
    'Sin modelo de hábitat, solo con la superficie recorrida, hay {design} grupos por m², frente a {model} según el modelo: la diferencia supera sus errores, de modo que no conviene fiarse de la cifra antes de conocer la causa.',
  allHold: {
    one: 'La única comprobación del modelo se cumple.',
    other: 'Las {count} comprobaciones del modelo se cumplen.',
  },
  someHold:
    'De {all} comprobaciones del modelo se cumplen {holds}; dudosas: {doubtful}; fallidas: {fails}; no comprobables: {untestable}.',

  figure: 'Figura {number}',
  table: 'Tabla {number}',
  mapTitle: 'Mejillones por m² en el hábitat muestreado de {lake}, {days}.',
  mapNote: 'Orilla, sustrato y profundidad según los mapas recibidos.',
  mapDescribed: 'Mapa de {lake}: mejillones por m². Del fondo dibujado: {shares}.',
  mapDescribedBare: 'Mapa de {lake}: mejillones por m². No se dibuja ninguna densidad.',
  mapAreasDescribed: 'Áreas de tratamiento dibujadas: {areas}.',
  mapShare: '{class} en el {share} %',
  classBelow: 'menos de {to}',
  classBetween: '{from} a {to}',
  classAbove: '{from} y más',
  mapUnsure: 'menos seguro: límites del intervalo de confianza a más de {ratio} veces entre sí',
  mapOutside: 'fuera del hábitat muestreado',
  mapNothing: 'recorrido, nada detectado',
  mapTransect: 'transecto con detecciones',
  mapEmptyTransect: 'transecto, nada detectado',
  mapArea: 'área de tratamiento',
  north: 'Norte',
  densityTitle: 'Densidad según la profundidad en cada sustrato de {lake}, {days}.',
  densityNote:
    'Línea gruesa: mejillones por m²; banda: intervalo de confianza del {level} %; líneas finas: los demás sustratos; rayado: profundidades que nadie muestreó. Cobertura vegetal como se anotó en cada sustrato.',
  densityDescribed:
    'La profundidad va hacia abajo, la densidad hacia la derecha en escala logarítmica; un panel para cada uno: {substrates}, con el intervalo de confianza como banda.',
  densityAxis: 'mejillones por m², escala logarítmica',

  prepared: 'Elaborado por',
  reviewed: 'Revisado por',
  name: 'Nombre',
  signature: 'Firma',
  date: 'Fecha',

  where: 'Dónde están',
  whereText:
    'La {table} da la cifra por profundidad y la {otherTable} por sustrato, de más a menos. La proporción es la de todos los mejillones del hábitat muestreado.',
  byDepth: 'Mejillones por profundidad, todos los sustratos juntos, {lake}, {days}.',
  bySubstrate: 'Mejillones por sustrato, todas las profundidades juntas, {lake}, {days}.',
  depth: 'Profundidad',
  substrate: 'Sustrato',
  band: '{from} a {to} m',
  bandFeet: '{from} a {to} pies',
  all: 'todo',
  others: {
    one: 'uno más, en el informe completo',
    other: '{count} más, en el informe completo',
  },
  hectaresColumn: 'ha',
  acresColumn: 'acres',
  musselsColumn: 'Mejillones',
  intervalColumn: 'Intervalo de confianza del {level} %',
  upTo: 'hasta {upper}',
  rangeColumn: '{lower} a {upper}',
  shareColumn: 'Proporción',
  percent: '{share} %',
  areas: 'Áreas de tratamiento',
  areasText:
    'La {table} compara las áreas candidatas: lo que hay en su parte del hábitat muestreado, de {from} a {to} m de profundidad. Las proporciones son de todos los mejillones del hábitat muestreado.',
  areasTitle: 'Áreas de tratamiento candidatas de {lake}, {days}.',
  areaColumn: 'Área',
  leftOut: 'fuera de todas ellas',
  outside: 'Lo que no está en la cifra',
  outsideText:
    '{hectares} ({acres}) de fondo del lago están fuera del hábitat muestreado, porque nadie buscó allí o no se cartografió. También allí puede haber mejillones.',
  outsideNone: 'Todo el fondo cartografiado del lago está en la cifra.',
  cautions: 'Advertencias',
  cautionHabitats:
    'La cifra vale para los hábitats y profundidades recorridos. No incluye el fondo cartografiado donde no se buscó ni el fondo sin cartografiar.',
  cautionMissed:
    'Donde no se detectó nada puede haber mejillones: algunos se pasan por alto y los pequeños se ven mal.',
  cautionMaps:
    'Los mapas de orilla, sustrato y profundidad se toman como son; sus errores no están en los intervalos.',
  cautionTreatment:
    'Tratamiento: esto es una ayuda para planificar, no una prescripción. Mandan la etiqueta y los permisos, la dosis la fijan aplicadores autorizados, y puede dañarse a mejillones nativos y a otros animales.',
  cautionDiving:
    'Buceo: el frío, los enredos, las embarcaciones y la poca visibilidad son peligros reales. Primero están el plan de buceo, la persona responsable de la seguridad y las normas locales; nada de esto fija un límite de buceo.',
  madeBy:
    'Hecho con Shoalwise {version}. Los métodos, las comprobaciones, todas las tablas y los archivos de origen están en el informe completo.',
};
