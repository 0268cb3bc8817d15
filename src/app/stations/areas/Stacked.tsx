/** A number with its interval beneath, so that five columns have room beside a map. */
export function Stacked({ main, beneath }: { main: string; beneath: string }) {
  return (
    <>
      {main}
      <span className="area-beneath">{beneath}</span>
    </>
  );
}
