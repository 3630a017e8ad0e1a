// size: 760x1200
// develop: ev=0.3 warm=0.0 con=0.25 grain=0.012 vig=0.45 sat=0.5 dof=14
#include "common.inc"
Cam(<.35,1.3,-5.2>,<.02,.84,0>,18.5,19/30,.3,<0,.8,0>)
sky_sphere { pigment { rgb <.12,.12,.12> } }
Panel(<-4.2,3,-2>,<0,2.4,0>,<.8,0,1.8>,rgb <1.25,1.2,1.12>,5) light_source { <3,4,-5> color rgb <.22,.22,.23>*LK shadowless }
// painted backdrop: hills and trees in soft grey
plane { -z,-2.2 texture { pigment { gradient y turbulence .12 octaves 5 color_map { [0 srgb <.42,.40,.37>][.32 srgb <.46,.44,.40>][.36 srgb <.62,.60,.57>][.6 srgb <.70,.69,.66>][1 srgb <.56,.55,.53>] } scale 3 } }
 texture { pigment { bozo turbulence .7 octaves 6 color_map { [.5 rgbt 1][.75 srgbt <.3,.29,.26,.45>][1 srgbt <.25,.24,.22,.3>] } scale <.9,1.1,1> translate <.4,0,0> } } }
plane { y,0 texture { pigment { checker srgb <.34,.30,.27>, srgb <.60,.55,.48> scale .24 rotate y*45 } finish { diffuse .7 specular .1 } } }
// chair of turned wood with a buttoned seat
#declare TW = texture { pigment { granite color_map { [0 srgb <.14,.08,.05>][1 srgb <.30,.18,.11>] } scale <.06,.5,.06> } finish { diffuse .7 specular .45 roughness .02 } }
#macro Leg(X,Z,H) union { #for (K,0,7) sphere { <X,H*(K+.5)/8,Z>,(mod(K,2)?.036:.028) scale <1,1,1> } #end cylinder { <X,0,Z>,<X,H,Z>,.022 } texture { TW } } #end
union { Leg(-.27,-.25,.46) Leg(.27,-.25,.46) Leg(-.25,.25,1.22) Leg(.25,.25,1.22)
 box { <-.31,.42,-.29>,<.31,.47,.29> texture { TW } }
 superellipsoid { <.35,.5> scale <.29,.07,.27> translate y*.50 texture { pigment { srgb <.30,.10,.09> } normal { granite .15 scale .03 } finish { diffuse .75 specular .15 roughness .08 } } }
 #for (K,0,4) cylinder { <-.16+K*.08,.62,.25>,<-.16+K*.08,1.08,.25>,.014 texture { TW } } #end
 cylinder { <-.25,.62,.25>,<.25,.62,.25>,.02 texture { TW } } sphere_sweep { cubic_spline 5,<-.4,1.0,.25>,.03,<-.26,1.14,.25>,.032,<0,1.25,.25>,.045,<.26,1.14,.25>,.032,<.4,1.0,.25>,.03 texture { TW } }
 rotate y*24 translate <.05,0,0> }
// shawl thrown over the back
mesh { #for (I,0,29) #for (J,0,29)
 #macro SP(A,B) #local uu=A/30; #local vv=B/30; vrotate(<-.20+.36*uu+.03*sin(8*vv), 1.20+.035*sin(pi*uu)-max(0,vv-.25)*1.05*(1+.12*sin(7*uu)), .25-.055*cos(min(vv,.5)*2*pi)-.02-.03*sin(12*uu+3*vv)*vv>,y*24)+<.05,0,0> #end
 triangle { SP(I,J),SP(I+1,J),SP(I+1,J+1) } triangle { SP(I,J),SP(I+1,J+1),SP(I,J+1) } #end #end
 texture { pigment { checker srgb <.78,.74,.68>, srgb <.66,.61,.55> scale .035 } normal { granite .3 scale .02 } finish { diffuse .75,.3 } } }
// hat on the seat
union { torus { .15,.012 scale <1,.6,1> } cylinder { 0,y*.008,.155 } sphere { 0,.095 scale <1,.95,1> translate y*.02 } translate <.03,.58,-.06> rotate y*20 texture { pigment { gradient y color_map { [.3 srgb <.72,.62,.42>][.5 srgb <.62,.52,.34>] } scale .02 } normal { gradient y 1 scale .012 } } }
// balustrade and fern
#for (K,0,4) union { lathe { cubic_spline 9,<.05,-.1>,<.07,0>,<.05,.06>,<.085,.22>,<.04,.42>,<.04,.55>,<.07,.62>,<.07,.68>,<.07,.8> } translate <-1.3+K*.22,.1,1.1> Rough(srgb <.74,.72,.68>,.15,.03) } #end
box { <-1.6,0,.95>,<-.3,.12,1.25> Rough(srgb <.74,.72,.68>,.15,.03) } box { <-1.6,.76,.94>,<-.28,.88,1.26> Rough(srgb <.74,.72,.68>,.15,.03) }
cone { <.72,0,.55>,.13,<.72,.34,.55>,.18 Rough(srgb <.55,.42,.34>,.2,.02) }
#for (K,0,26) #declare A=K*41; union { #for (J,1,11) #local tt=J/11; #local P=<.52*tt*(.7+.3*mod(K,3)/2),.36+.62*tt-.62*tt*tt*(1.1+.2*mod(K,2)),0>; #for (S,-1,1,2) triangle { P,P+<.05,.0,S*.10*(1.1-tt)>,P+<.0,-.012,S*.10*(1.1-tt)> } #end #end translate 0 rotate y*A translate <.72,0,.55> texture { pigment { srgb <.20,.27,.15> } finish { diffuse .6,.35 } } } #end
// curtain
mesh { #for (I,0,59) #for (J,0,3)
 #macro KP(A,B) #local uu=A/60; #local vv=B/4; <.75+.75*uu-.16*sin(pi*vv)*(1-uu), 2.9*vv, 1.5+.09*sin(34*uu+.5*vv)> #end
 triangle { KP(I,J),KP(I+1,J),KP(I+1,J+1) } triangle { KP(I,J),KP(I+1,J+1),KP(I,J+1) } #end #end texture { pigment { srgb <.28,.24,.22> } finish { diffuse .75,.1 specular .1 roughness .1 } } }
