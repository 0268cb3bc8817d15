declare module 'virtual:public-viewer' {
  const script: { text: string; hash: string };
  export default script;
}
