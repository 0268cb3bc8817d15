/** The CV that was set as goal of a survey before its dives: kept in this browser, since a goal that is set after them is none. */

import { useCallback, useState } from 'react';
import { useApp } from './app-context.tsx';
import { keptBySurvey } from './kept-by-survey.ts';

/** Where none was set, %. */
export const USUAL_GOAL = 15;

const kept = keptBySurvey('shoalwise-goals', isGoal);

/** %. */
export const goalOf = (survey: string): number => kept.of(survey) ?? USUAL_GOAL;
export const keepGoal = kept.keep;

/** The goal of the open survey, %, and how to set it. */
export function useGoal(): [goal: number, set: (percent: number) => void] {
  const survey = useApp().state.work?.name ?? '';
  // without storage it holds as long as this stands
  const [own, setOwn] = useState<{ survey: string; percent: number } | null>(null);
  const set = useCallback(
    (percent: number) => {
      keepGoal(survey, percent);
      setOwn({ survey, percent });
    },
    [survey],
  );
  return [own?.survey === survey ? own.percent : goalOf(survey), set];
}

function isGoal(value: unknown): value is number {
  return typeof value === 'number' && value > 0 && value < 1000;
}
