/** Les mots de la carte publique, de l'affiche et des images en français ; on vouvoie le lecteur. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const fr: Translation<typeof en> = {
  title: '{lake} : des moules au fond du lac',
  lead: 'Environ {estimate} moules ; il pourrait y en avoir de {lower} à {upper}, dans la partie du lac qui a été étudiée.',
  leadWithoutRange:
    'Environ {estimate} moules dans la partie du lac qui a été étudiée. On ne sait pas de combien ce chiffre peut s’écarter de la réalité.',
  leadClusters:
    'Environ {estimate} groupes de moules ; il pourrait y en avoir de {lower} à {upper}, dans la partie du lac qui a été étudiée.',
  leadClustersWithoutRange:
    'Environ {estimate} groupes de moules dans la partie du lac qui a été étudiée. On ne sait pas de combien ce chiffre peut s’écarter de la réalité.',
  leadNothing:
    'Les plongeurs n’ont pas détecté de moules là où ils ont cherché. Cela ne prouve pas qu’il n’y en a pas dans le lac.',
  leadCounted: {
    one: 'Les plongeurs ont compté {count} moule là où ils ont cherché. Il n’y a pas encore de chiffre pour tout le lac.',
    other:
      'Les plongeurs ont compté {count} moules là où ils ont cherché. Il n’y a pas encore de chiffre pour tout le lac.',
  },
  limit:
    'Dans la partie du lac qui a été étudiée, il pourrait encore y avoir jusqu’à {upper} groupes. Un groupe, c’est une seule moule ou plusieurs côte à côte.',
  cluster: 'Un groupe, c’est une seule moule ou plusieurs côte à côte.',
  holds:
    'Cette partie couvre {hectares} ({acres}) du fond du lac, de {from} à {to} m de profondeur (de {fromFeet} à {toFeet} pieds).',
  searchedDepths:
    'Les plongeurs ont cherché de {from} à {to} m de profondeur (de {fromFeet} à {toFeet} pieds).',
  rest: 'Le reste du fond du lac, soit {hectares} ({acres}), n’est pas compris dans ce chiffre. Il peut aussi y avoir des moules à cet endroit.',
  far: 'Une part de {share} de cette zone est loin de tout endroit examiné ; le chiffre y est moins sûr.',
  missed: 'Les moules que les plongeurs n’ont pas vues ne sont pas comprises dans ce chiffre.',
  rangeMeans:
    'Pourquoi une fourchette ? Les plongeurs ne peuvent examiner qu’une petite partie du fond et quelques moules leur échappent. Les fourchettes calculées ainsi contiennent le vrai nombre dans environ {level} des études. Les erreurs des cartes du lac s’y ajoutent.',
  effort: {
    one: 'Les plongeurs ont examiné {count} ligne au fond du lac ({days}), soit {squareMetres} m² en tout.',
    other:
      'Les plongeurs ont examiné {count} lignes au fond du lac ({days}), soit {squareMetres} m² en tout.',
  },
  meansNotDetected:
    'Recherche sans détection : il peut quand même y avoir des moules. Quelques-unes échappent aux plongeurs, surtout les petites.',

  map: 'Carte de {lake}',
  mapDescribed: {
    one: 'Carte de {lake} avec {count} endroit examiné ; des moules y ont été détectées à {detected} endroit(s). Le tableau ci-dessous dit la même chose en mots.',
    other:
      'Carte de {lake} avec {count} endroits examinés ; des moules ont été détectées à {detected} d’entre eux. Le tableau ci-dessous dit la même chose en mots.',
  },
  mapKeys:
    'Les flèches déplacent la carte, + et − l’agrandissent et la réduisent, 0 montre tout le lac, Entrée décrit l’endroit sous la croix et N passe au prochain endroit examiné.',
  mapHint: 'Cliquez sur un endroit, ou touchez-le, pour en savoir plus.',
  zoomIn: 'Agrandir',
  zoomOut: 'Réduire',
  wholeLake: 'Tout le lac',
  language: 'Langue',
  close: 'Fermer',
  northMark: 'Nord',
  key: 'Ce que montre la carte',
  detected: 'Moules détectées',
  notDetected: 'Recherche sans détection',
  notSearched: 'Pas de recherche',
  surveyedPart: 'Limite de la partie étudiée',
  depth: 'Profondeur',
  depthBand: 'de {from} à {to} m (de {fromFeet} à {toFeet} pieds)',
  kilometres: '{length} km',
  metres: '{length} m',

  spotDetected: {
    one: 'Les plongeurs ont cherché ici ({days}) et ont compté {count} moule.',
    other: 'Les plongeurs ont cherché ici ({days}) et ont compté {count} moules.',
  },
  spotNotDetected:
    'Les plongeurs ont cherché ici ({days}) et n’ont pas détecté de moules. Quelques-unes ont pu leur échapper.',
  spotSquareDetected: {
    one: 'Les plongeurs ont cherché dans ce carré ({days}) et ont compté {count} moule.',
    other: 'Les plongeurs ont cherché dans ce carré ({days}) et ont compté {count} moules.',
  },
  spotSquareNotDetected:
    'Les plongeurs ont cherché dans ce carré ({days}) et n’ont pas détecté de moules. Quelques-unes ont pu leur échapper.',
  spotInside:
    'Personne n’a cherché ici. Le fond et la profondeur ressemblent à ceux des endroits examinés ; cet endroit est donc compris dans le chiffre.',
  spotOutside:
    'Personne n’a cherché ici, et cet endroit n’est pas compris dans le chiffre. Il peut aussi y avoir des moules ici.',
  spotDepth: 'L’eau a environ {from} à {to} m de profondeur ({fromFeet} à {toFeet} pieds).',
  spotLand: 'Ce point n’est pas dans le lac.',

  inWords: 'La carte en mots',
  places: 'Endroits examinés',
  part: 'Partie du lac',
  result: 'Résultat',
  counted: 'Moules comptées',
  when: 'Date',
  byDepth: 'Moules selon la profondeur, dans la partie étudiée',
  area: 'Fond du lac',
  areaBoth: '{hectares} ({acres})',
  mussels: 'Moules, environ',
  couldBe: 'Fourchette',
  fromTo: 'de {lower} à {upper}',
  partNorth: 'nord',
  partNorthEast: 'nord-est',
  partEast: 'est',
  partSouthEast: 'sud-est',
  partSouth: 'sud',
  partSouthWest: 'sud-ouest',
  partWest: 'ouest',
  partNorthWest: 'nord-ouest',
  partMiddle: 'centre',

  doHeading: 'Ce que vous pouvez faire',
  doLook:
    'Avant de quitter la rive, examinez le bateau, la remorque, l’ancre, les filets et les bottes. Enlevez toutes les plantes, la boue et les animaux.',
  doDrain:
    'À terre, retirez les bouchons et laissez s’écouler toute l’eau du moteur, du bateau, des réservoirs et des seaux.',
  doDry:
    'Laissez tout sécher complètement avant d’aller sur un autre plan d’eau. Les jeunes moules sont trop petites pour être vues.',
  doKeep: 'Ne transportez jamais de moules, d’eau du lac ni d’appâts vivants d’un lac à un autre.',
  doTell:
    'Si vous voyez des moules dans un autre lac, prenez une photo, notez l’endroit et la date, et signalez-les.',
  doNotTreat:
    'Ne versez rien dans le lac pour tuer les moules. Cela peut nuire aux moules indigènes et à d’autres animaux, et la loi peut l’interdire.',
  doRules: 'Les règles locales passent avant tout. Suivez les panneaux de votre lac.',

  factLine: '{name} : {value}',
  about: 'À propos de cette carte',
  surveyed: 'Date de l’étude',
  ask: 'À qui s’adresser',
  nextUpdate: 'Prochaine mise à jour',
  coarse:
    'Les endroits sont montrés par des carrés de {size} m. Chacun représente ce qui a été examiné quelque part à l’intérieur.',
  source: 'La rive et les profondeurs sont celles des cartes du lac qui ont été utilisées.',
  notNavigation: 'Ne convient ni à la navigation ni à la préparation d’une plongée.',
};
