import { readFileSync, existsSync } from "node:fs";
import { sentenceOf } from "./extractors/hearing/text.ts";
import { Ear } from "./extractors/hearing/ear.ts"; import { chanceOf } from "./extractors/hearing/doubt.ts";
import { meaningOf } from "./extractors/hearing/meaning.ts";
import { DEMO_SPEC as S } from "./shared/spec/demo-engine.ts";
const [jobs, tag, dbs="99,20,10", verbose] = process.argv.slice(2);
const ear=new Ear(undefined as any); const cache=new Map<string,any>(); let tb=0;

for (const db of dbs.split(",")) { const T:any={}; let cpu=0,sec=0; const leads:any[]=[];
 for (const l of readFileSync(jobs!,"utf8").trim().split("\n")) { const j=JSON.parse(l); const f=`${j.file}.${tag}.${db}.bin`; if(!existsSync(f)) continue;
  const b=readFileSync(f); const values=new Float32Array(b.buffer,b.byteOffset,b.byteLength/4); const frames=values.length/40;
  const c0=process.cpuUsage(); const r=ear.rank({values,frames,labels:40},{spec:S,context:j.context}); cpu+=process.cpuUsage(c0).user/1e6; sec+=frames*0.04;
  const want=meaningOf(j.say.toLowerCase(),j.context,S).meaning; const all=[r.best,...r.others].filter(x=>x!==undefined).map(t=>meaningOf(t!,j.context,S).meaning);
  const ok=all[0]===want; const rank=all.indexOf(want); const {lead,gap,haze}=r.evidence; const chance=r.best===undefined?0:chanceOf(r.evidence); const top=r.best?{text:r.best}:undefined;
  const v=j.voice; T[v]??={n:0,ok:0,in:0}; T[v].n++; if(ok)T[v].ok++; if(rank>=0)T[v].in++;
  leads.push({ok,lead,gap,chance});
  if(!ok&&verbose) console.log(db,v,'|',j.say,'|',top?.text??'-','| lead',lead.toFixed(1),'gap',gap.toFixed(2),'rank',rank,'haze',haze.toFixed(2),'chance',chance.toFixed(3));
 }
 let n=0,ok=0,inn=0; for(const v in T){n+=T[v].n;ok+=T[v].ok;inn+=T[v].in;} console.log(db,'dB exact',(100*ok/n).toFixed(1),'in list',(100*inn/n).toFixed(1),'of',n,'cpu',(cpu/sec).toFixed(4), Object.entries(T).map(([v,x]:any)=>v.split(' ')[1]+' '+(100*x.ok/x.n).toFixed(0)).join(', '));
 const n2=leads.length; const cnt=(f:any)=>(100*leads.filter(f).length/n2).toFixed(1); console.log('   accepted right',cnt((x:any)=>x.ok&&x.chance>.99),'accepted wrong',cnt((x:any)=>!x.ok&&x.chance>.99),'asked right',cnt((x:any)=>x.ok&&x.chance<=.99&&x.chance>.25),'asked wrong',cnt((x:any)=>!x.ok&&x.chance<=.99&&x.chance>.25),'nothing',cnt((x:any)=>x.chance<=.25));
}
console.log("build ms",tb.toFixed(0),"for",cache.size);
