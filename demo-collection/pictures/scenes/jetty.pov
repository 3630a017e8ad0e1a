// size: 1280x820
// develop: ev=0.45 warm=0.03 con=0.25 grain=0.014 vig=0.25 sat=0.85 lift=0.04
#include "common.inc"
Cam(<-1.9,1.75,-6.5>,<.7,1.0,4>,52,64/41,-.5,<0,.3,2>)
Haze(90,rgb <.84,.80,.78>)
Sky(rgb <.96,.84,.72>,rgb <.46,.58,.76>) Clouds(rgb <1.1,.98,.88>,.45,.5)
Sun(<3.2,1.5,3.5>,rgb <1.35,1.05,.72>,1,3) SkyFill(rgb <.30,.33,.40>)
plane { y,0 Water(rgb <.05,.09,.12>,.10,.8) interior { ior 1.33 } }
// planks, each turned a little, some grey, some new
#for (I,0,62) #declare g=R(.8,1.15); box { <-.85+R(-.04,.04),.50,-.085>,<.85+R(-.04,.04),.54,.085> rotate <R(-.6,.6),R(-.8,.8),R(-.4,.4)> translate <0,0,-5+I*.2> texture { pigment { granite color_map { [0 srgb <.34,.30,.26>*g][.5 srgb <.50,.45,.39>*g][1 srgb <.60,.55,.48>*g] } scale <1.6,.06,.10> translate R(0,9) } normal { granite .3 scale <.6,.03,.04> } finish { diffuse .75 specular .08 roughness .05 } } } #end
#for (J,0,6) #for (S,-1,1,2) cylinder { <S*.92,-1.5,-4.4+J*1.9>,<S*.92+R(-.03,.03),.95+R(-.1,.25),-4.4+J*1.9+R(-.03,.03)>,.085 texture { T_Bark } } #end box { <-.95,.40,-4.46+J*1.9>,<.95,.5,-4.34+J*1.9> texture { T_Bark } } #end
#for (S,-1,1,2) box { <S*.7-.05,.38,-5>,<S*.7+.05,.5,7.4> texture { T_Bark } } #end
// ladder, bucket, coiled rope, lantern on the last post
#for (S,-1,1,2) cylinder { <-.98,-.5,4.9+S*.22>,<-.98,1.35,4.9+S*.22>,.03 Metal(srgb <.6,.6,.6>,.1,.2) } #end #for (K,0,5) cylinder { <-.98,-.2+K*.26,4.68>,<-.98,-.2+K*.26,5.12>,.022 Metal(srgb <.6,.6,.6>,.1,.2) } #end
difference { cone { <.42,.54,-1.2>,.13,<.42,.82,-1.2>,.17 } cone { <.42,.56,-1.2>,.115,<.42,.9,-1.2>,.158 } Gloss(srgb <.66,.13,.10>,.2) } torus { .165,.012 translate <.42,.82,-1.2> Metal(srgb <.7,.7,.7>,.05,.3) } torus { .17,.008 rotate x*70 translate <.42,.84,-1.22> Metal(srgb <.7,.7,.7>,.05,.3) }
#for (K,0,4) torus { .22-.012*K,.026 translate <-.38,.57+K*.045,1.1> texture { pigment { srgb <.72,.64,.48> } normal { gradient x 1 scale .03 } } } #end
// moored dinghies
#macro Dinghy(P,A,C,L) union { difference { sphere { 0,1 scale <L,.42,.52> } box { <-3,.12,-2>,<3,2,2> } sphere { 0,1 scale <L*.94,.36,.46> translate y*.04 } Gloss(C,.15) } #for (K,-1,1) box { <K*.5*L-.08,.02,-.45>,<K*.5*L+.08,.06,.45> scale <1,1,1-.15*abs(K)> Wood(srgb <.5,.36,.22>,srgb <.4,.27,.16>,.3) } #end rotate y*A translate P } #end
Dinghy(<2.3,.18,2.2>,70,srgb <.16,.32,.42>,1.25) Dinghy(<2.9,.18,4.9>,55,srgb <.72,.68,.58>,1.2) Dinghy(<-2.7,.18,5.6>,110,srgb <.52,.14,.11>,1.3)
sphere_sweep { cubic_spline 5,<1,1.2,1>,.012,<.95,.85,1.3>,.012,<1.5,.25,1.2>,.012,<2.1,.3,1.2>,.012,<2.4,.4,1.4>,.012 Matte(srgb <.7,.65,.52>) }
// hills in haze, far village of a few gables, reeds
#for (H,0,2) height_field { function 300,60 { .25+.5*f_noise3d(x*(4+H)+H*7,y*2,H*3+1)*sin(y*pi) } smooth translate <-.5,-.28,0> scale <160+70*H,11+9*H,16> translate <10*H-4,0,34+24*H> Matte(srgb <.22,.27,.22>) } #end
#for (I,0,8) union { box { <-.7,0,-.5>,<.7,1.1,.5> Matte(srgb <.78,.74,.68>) } prism { linear_sweep linear_spline -.55,.55,4,<-.8,1.1>,<.8,1.1>,<0,1.9>,<-.8,1.1> rotate x*-90 scale <1,1,-1> Matte(srgb <.40,.22,.17>) } rotate y*R(-30,30) translate <4+I*1.9+R(-.4,.4),.1+R(0,.5),33+R(-1,1)> } #end
#for (I,1,420) #declare P=<-4.2+R(-1.4,.9),-.1,-1.5+R(-2,3)>; cone { P,.010,P+<R(-.16,.16),R(.5,1.35),R(-.16,.16)>,.002 Matte(srgb <.36,.36,.17>*R(.7,1.2)) } #end
