/** Les mots de la première page du rapport et de sa version courte en français ; on vouvoie le lecteur. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const fr: Translation<typeof en> = {
  heading: 'Des moules au fond du lac',
  surveyed: '{lake}, relevé : {days}',

  answer:
    'Environ {estimate} moules (intervalle de confiance à {level} % : {lower} à {upper}) sur {hectares} ({acres}) d’habitat relevé, de {from} à {to} m ({fromFeet} à {toFeet} pieds) de profondeur.',
  answerWithoutInterval:
    'Environ {estimate} moules (aucun intervalle n’a pu être donné) sur {hectares} ({acres}) d’habitat relevé, de {from} à {to} m ({fromFeet} à {toFeet} pieds) de profondeur.',
  answerClusters:
    'Environ {estimate} groupes de moules (intervalle de confiance à {level} % : {lower} à {upper}) sur {hectares} ({acres}) d’habitat relevé, de {from} à {to} m ({fromFeet} à {toFeet} pieds) de profondeur.',
  answerClustersWithoutInterval:
    'Environ {estimate} groupes de moules (aucun intervalle n’a pu être donné) sur {hectares} ({acres}) d’habitat relevé, de {from} à {to} m ({fromFeet} à {toFeet} pieds) de profondeur.',
  counted: {
    one: 'Sur les {squareMetres} m² parcourus, à des profondeurs de {from} à {to} m, {count} moule a été comptée.',
    other:
      'Sur les {squareMetres} m² parcourus, à des profondeurs de {from} à {to} m, {count} moules ont été comptées.',
  },
  missed:
    'Là où aucun second observateur n’a cherché, ce que le premier a manqué n’est pas dans ce nombre.',
  far: '{areaShare} % de cet habitat, avec {musselsShare} % du nombre, se trouvent plus loin de tout transect que la distance habituelle entre transects voisins ({spacing} m).',
  farArea:
    '{areaShare} % de cet habitat se trouvent plus loin de tout transect que la distance habituelle entre transects voisins ({spacing} m).',
  nothingDetected:
    'Aucune moule n’a été détectée sur les {squareMetres} m² parcourus, à des profondeurs de {from} à {to} m.',
  nothingLimit:
    'Cela ne montre pas qu’il n’y en a pas : jusqu’à {upper} groupes ont pu échapper sur {hectares} ({acres}) d’habitat relevé, de {from} à {to} m ({fromFeet} à {toFeet} pieds) de profondeur. Cette limite supérieure à {level} % suppose que chaque groupe de la surface parcourue a été détecté ; si certains ont été manqués, elle est plus haute.',
  nothingNoLimit:
    'Cela ne montre pas qu’il n’y en a pas ; sans carte du lac, il n’y a pas de limite à donner.',
  noMaps: 'Il n’y a pas de nombre pour tout le lac, car il manque au dossier {files}.',
  noBed:
    'Il n’y a pas de nombre pour tout le lac, car aucun fond cartographié ne se trouve dans les habitats et profondeurs parcourus.',
  along:
    'Le long des transects il y avait environ {estimate} groupes par m² (intervalle de confiance à {level} % : {lower} à {upper}), corrigés de ceux qui ont été manqués.',
  alongWithoutInterval:
    'Le long des transects il y avait environ {estimate} groupes par m² (aucun intervalle n’a pu être donné), corrigés de ceux qui ont été manqués.',
  alongDetected:
    'Le long des transects il y avait environ {estimate} groupes par m² (intervalle de confiance à {level} % : {lower} à {upper}) ; ce qui a été manqué n’est pas dans ce nombre.',
  alongDetectedWithoutInterval:
    'Le long des transects il y avait environ {estimate} groupes par m² (aucun intervalle n’a pu être donné) ; ce qui a été manqué n’est pas dans ce nombre.',

  howSure: 'À quel point ce nombre est sûr',
  covers:
    'Sur cent relevés comme celui-ci, environ {level} donneraient un intervalle qui contient le vrai nombre ; il couvre le hasard de la place des moules et de ce qui a été détecté, non les erreurs des cartes.',
  coversBootstrap:
    'Sur cent relevés comme celui-ci, environ {level} donneraient un intervalle qui contient le vrai nombre, erreurs des cartes mises à part ; retirer les transects au sort {replicates} fois donne {lower} à {upper}.',
  agrees:
    'Sans modèle d’habitat, par la seule surface parcourue, il y a {design} groupes par m², contre {model} selon le modèle : les deux s’accordent dans leurs erreurs.',
  disagrees:
    'Sans modèle d’habitat, par la seule surface parcourue, il y a {design} groupes par m², contre {model} selon le modèle : l’écart dépasse leurs erreurs, si bien qu’il ne faut pas se fier au nombre avant d’en connaître la raison.',
  allHold: {
    one: 'Le seul contrôle du modèle est satisfait.',
    other: 'Les {count} contrôles du modèle sont satisfaits.',
  },
  someHold:
    'Sur {all} contrôles du modèle, {holds} sont satisfaits ; douteux : {doubtful} ; en échec : {fails} ; non vérifiables : {untestable}.',

  figure: 'Figure {number}',
  table: 'Tableau {number}',
  mapTitle: 'Moules par m² sur l’habitat relevé de {lake}, {days}.',
  mapNote: 'Rive, substrat et profondeur d’après les cartes reçues.',
  mapDescribed: 'Carte de {lake} : moules par m². Du fond dessiné : {shares}.',
  mapDescribedBare: 'Carte de {lake} : moules par m². Aucune densité n’est dessinée.',
  mapAreasDescribed: 'Zones de traitement dessinées : {areas}.',
  mapShare: '{class} sur {share} %',
  classBelow: 'moins de {to}',
  classBetween: '{from} à {to}',
  classAbove: '{from} et plus',
  mapUnsure: 'moins sûr : limites de l’intervalle de confiance dans un rapport de plus de {ratio}',
  mapOutside: 'hors de l’habitat relevé',
  mapNothing: 'parcouru, rien de détecté',
  mapTransect: 'transect avec détections',
  mapEmptyTransect: 'transect, rien de détecté',
  mapArea: 'zone de traitement',
  north: 'Nord',
  densityTitle: 'Densité selon la profondeur sur chaque substrat de {lake}, {days}.',
  densityNote:
    'Trait épais : moules par m² ; bande : intervalle de confiance à {level} % ; traits fins : les autres substrats ; hachures : profondeurs que personne n’a relevées. Couvert végétal tel que noté sur chaque substrat.',
  densityDescribed:
    'La profondeur va vers le bas, la densité vers la droite sur une échelle logarithmique ; un panneau pour chacun : {substrates}, avec l’intervalle de confiance en bande.',
  densityAxis: 'moules par m², échelle logarithmique',

  prepared: 'Établi par',
  reviewed: 'Relu par',
  name: 'Nom',
  signature: 'Signature',
  date: 'Date',

  where: 'Où elles sont',
  whereText:
    'Le {table} donne le nombre par profondeur, le {otherTable} par substrat, du plus grand au plus petit. La part est celle de toutes les moules de l’habitat relevé.',
  byDepth: 'Moules par profondeur, tous substrats réunis, {lake}, {days}.',
  bySubstrate: 'Moules par substrat, toutes profondeurs réunies, {lake}, {days}.',
  depth: 'Profondeur',
  substrate: 'Substrat',
  band: '{from} à {to} m',
  bandFeet: '{from} à {to} pieds',
  all: 'tout',
  others: {
    one: 'une ligne de plus, dans le rapport complet',
    other: '{count} lignes de plus, dans le rapport complet',
  },
  hectaresColumn: 'ha',
  acresColumn: 'acres',
  musselsColumn: 'Moules',
  intervalColumn: 'Intervalle de confiance à {level} %',
  upTo: 'jusqu’à {upper}',
  rangeColumn: '{lower} à {upper}',
  shareColumn: 'Part',
  percent: '{share} %',
  areas: 'Zones de traitement',
  areasText:
    'Le {table} compare les zones envisagées : ce qui se trouve dans leur part de l’habitat relevé, de {from} à {to} m de profondeur. Les parts sont celles de toutes les moules de l’habitat relevé.',
  areasTitle: 'Zones de traitement envisagées, {lake}, {days}.',
  areaColumn: 'Zone',
  leftOut: 'hors de toutes',
  outside: 'Ce qui n’est pas dans le nombre',
  outsideText:
    '{hectares} ({acres}) de fond du lac se trouvent hors de l’habitat relevé, parce que personne n’y a cherché ou qu’il n’était pas cartographié. Des moules peuvent y vivre aussi.',
  outsideNone: 'Tout le fond cartographié du lac est dans le nombre.',
  cautions: 'Précautions',
  cautionHabitats:
    'Le nombre vaut pour les habitats et profondeurs parcourus. Le fond cartographié où l’on n’a pas cherché et le fond non cartographié n’y sont pas.',
  cautionMissed:
    'Là où rien n’a été détecté, des moules peuvent vivre : certaines échappent, et les petites se voient mal.',
  cautionMaps:
    'Les cartes de la rive, du substrat et de la profondeur sont prises telles quelles ; leurs erreurs ne sont pas dans les intervalles.',
  cautionTreatment:
    'Traitement : ceci aide à planifier et n’est pas une prescription. L’étiquette et les permis font loi, des applicateurs agréés fixent la dose, et des moules indigènes et d’autres animaux peuvent en souffrir.',
  cautionDiving:
    'Plongée : le froid, l’enchevêtrement, les bateaux et la mauvaise visibilité sont de vrais dangers. Le plan de plongée, la personne responsable de la sécurité et les règles locales passent d’abord ; rien ici ne fixe une limite de plongée.',
  madeBy:
    'Fait avec Shoalwise {version}. Les méthodes, les contrôles, tous les tableaux et les fichiers d’origine sont dans le rapport complet.',
};
