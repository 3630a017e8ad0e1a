// size: 1100x1100
// develop: ev=0.2 warm=0.05 con=0.32 grain=0.018 vig=0.35 sat=0.9 dof=16
#include "common.inc"
Cam(<-.5,.62,-1.45>,<.13,.05,.02>,40,1,1.5,<.05,.08,-.28>)
sky_sphere { pigment { rgb <.10,.09,.08> } }
Panel(<-3,2.4,-.5>,<0,1.2,0>,<.3,0,1.4>,rgb <1.7,1.5,1.2>,5) light_source { <2,2,-2> color rgb <.2,.2,.22>*LK shadowless }
// floor boards and a rug
#for (I,-12,12) #declare WRot = <0,90,0>; box { <-4,-.05,I*.14+.002>,<4,0,I*.14+.138> Wood(srgb <.45,.29,.16>*R(.85,1.1),srgb <.32,.19,.10>,R(.5,.8)) } #end
cylinder { 0,y*.008,.72 scale <1,1,1> translate <.25,0,.12> texture { pigment { onion color_map { [.28 srgb <.48,.12,.11>][.28 srgb <.72,.62,.44>][.4 srgb <.72,.62,.44>][.4 srgb <.16,.22,.34>][.75 srgb <.16,.22,.34>][.75 srgb <.48,.12,.11>] } scale .24 translate <.25,0,.12> } normal { bumps .8 scale .008 } finish { diffuse .8 } } }
#macro Paint(C) Gloss(C,.25) #end
// track: a bent oval
#declare TR = .42;
#for (K,0,47) box { <-.012,.008,-.055>,<.012,.016,.055> translate <0,0,TR> rotate y*K*7.5 translate <.18,0,.12> Matte(srgb <.34,.22,.13>) } #end
#for (S,-1,1,2) torus { TR+S*.03,.005 translate <.18,.02,.12> texture { pigment { srgb <.7,.7,.72> } finish { diffuse .3 specular .8 roughness .01 reflection .3 } } } #end
#macro Wheels(L) #for (X,-1,1,2) #for (S,-1,1,2) cylinder { <X*L,.04,S*.028>,<X*L,.04,S*.036>,.018 texture { pigment { srgb <.08,.08,.09> } finish { specular .5 } } } #end #end #end
#macro OnTrack(Ob,A) object { Ob translate <0,0,-TR> rotate y*A translate <.18,.0,.12> } #end
#declare Engine = union { Wheels(.055) box { <-.10,.045,-.036>,<.10,.06,.036> Paint(srgb <.12,.12,.13>) }
 cylinder { <-.10,.092,0>,<.03,.092,0>,.035 Paint(srgb <.08,.32,.17>) } cylinder { <-.106,.092,0>,<-.10,.092,0>,.03 Paint(srgb <.72,.58,.2>) }
 #for (K,0,2) torus { .0355,.003 rotate z*90 translate <-.08+K*.04,.092,0> Paint(srgb <.78,.62,.2>) } #end
 box { <.03,.06,-.042>,<.10,.155,.042> Paint(srgb <.68,.08,.07>) } box { <.02,.155,-.05>,<.11,.165,.05> Paint(srgb <.10,.10,.11>) } box { <.045,.105,-.043>,<.085,.14,.043> Matte(srgb <.85,.8,.66>) }
 cone { <-.075,.12,0>,.010,<-.075,.165,0>,.017 Paint(srgb <.10,.10,.11>) } sphere { <-.03,.13,0>,.014 Paint(srgb <.78,.62,.2>) } }
#macro Wagon(C,D) union { Wheels(.05) box { <-.085,.045,-.036>,<.085,.058,.036> Paint(srgb <.12,.12,.13>) } difference { box { <-.08,.058,-.038>,<.08,.105,.038> } box { <-.074,.065,-.032>,<.074,.12,.032> } Paint(C) } #for (I,0,16) sphere { <R(-.06,.06),R(.095,.112),R(-.022,.022)>,.014 Paint(D) } #end } #end
#declare W1 = Wagon(srgb <.13,.27,.55>,srgb <.82,.68,.2>)
#declare W2 = Wagon(srgb <.78,.5,.12>,srgb <.6,.12,.1>)
#declare W3 = Wagon(srgb <.6,.1,.09>,srgb <.2,.42,.25>)
OnTrack(Engine,34) OnTrack(W1,4) OnTrack(W2,-24) OnTrack(W3,-52)
// blocks and a ball
#macro Block(P,A,C,Cd) superellipsoid { <.12,.12> scale .045 rotate y*A translate P+y*.045 Wood(C,Cd,.3) } #end
Block(<-.46,0,-.10>,20,srgb <.75,.6,.4>,srgb <.6,.45,.28>) Block(<-.40,0,.05>,-12,srgb <.7,.2,.15>,srgb <.55,.14,.1>) Block(<-.43,.09,-.03>,35,srgb <.2,.35,.55>,srgb <.14,.26,.42>) Block(<.55,0,-.2>,44,srgb <.75,.62,.2>,srgb <.6,.48,.14>)
sphere { <.12,.085,.14>,.085 texture { pigment { gradient x color_map { [.33 srgb <.82,.78,.68>][.33 srgb <.75,.15,.1>][.66 srgb <.75,.15,.1>][.66 srgb <.12,.3,.5>] } scale .17 rotate <0,30,40> } finish { diffuse .7 specular .5 roughness .02 reflection { .02,.3 fresnel on } } } interior { ior 1.5 } }
// table legs and skirting behind
#for (S,0,1) box { <-.75+S*1.75,0,.75>,<-.67+S*1.75,1,.83> Wood(srgb <.30,.17,.10>,srgb <.2,.11,.06>,.4) } #end
box { <-4,0,1.6>,<4,.16,1.7> Matte(srgb <.8,.77,.7>) } box { <-4,.16,1.64>,<4,3,1.7> texture { pigment { gradient x color_map { [.5 srgb <.58,.55,.45>][.5 srgb <.66,.62,.52>] } scale .12 } } }
