// size: 860x1180
// develop: ev=0.2 warm=0.02 con=0.28 grain=0.014 vig=0.3 sat=0.7
#include "common.inc"
Cam(<-5,2.0,-24>,<.8,6.2,0>,40,43/59,.8,<0,1,0>)
Haze(190,rgb <.78,.79,.80>)
Sky(rgb <.84,.85,.86>,rgb <.42,.54,.74>) Clouds(rgb <1.06,1.04,1>,.5,.6)
Sun(<-3.5,3.2,-2.4>,rgb <1.45,1.3,1.08>,1,3) SkyFill(rgb <.25,.28,.33>)
height_field { function 300,300 { .5+.30*exp(-((x-.5)*(x-.5)+(y-.42)*(y-.42))*26)+.03*f_noise3d(x*14,y*14,3)+.004*f_noise3d(x*90,y*90,3) } smooth translate <-.5,-.78,-.5> scale <120,9,120> translate <0,.6,6> texture { pigment { granite turbulence .3 color_map { [0 srgb <.28,.34,.14>][.6 srgb <.40,.44,.2>][1 srgb <.52,.50,.26>] } scale 3 } normal { granite .7 scale .15 } } }
#declare GP = GrassPatch(700,.34,.012,srgb <.30,.38,.15>,srgb <.52,.52,.24>)
#for (I,-8,4) #for (J,0,7) object { GP rotate y*90*mod(I+2*J+20,4) translate <I-2,-.75+.05*J,J-19> } #end #end
union {
 cone { y*-.6,3.0,y*8.6,1.85 texture { pigment { granite color_map { [0 srgb <.62,.58,.52>][.4 srgb <.80,.77,.70>][1 srgb <.90,.88,.82>] } scale <.6,1.6,.6> } normal { granite .35 scale .2 } } }
 #for (K,0,2) box { <-.32,0,-3>,<.32,.85,-1.6> translate <0,1.9+K*2.5,K*.28> rotate y*(K*36-20) Matte(srgb <.08,.08,.09>) } #end
 box { <-.55,-.4,-3.2>,<.55,1.7,-2> rotate y*34 Wood(srgb <.30,.24,.18>,srgb <.20,.16,.12>,.5) }
 cylinder { y*3.5,y*3.62,3.6 Wood(srgb <.36,.29,.22>,srgb <.25,.2,.15>,.6) } #for (K,0,23) cylinder { vrotate(<3.5,3.6,0>,y*K*15),vrotate(<3.5,4.5,0>,y*K*15),.035 Matte(srgb <.34,.27,.2>) } cylinder { vrotate(<2.4,2.2,0>,y*K*15),vrotate(<3.5,3.5,0>,y*K*15),.05 Matte(srgb <.30,.24,.18>) } #end torus { 3.5,.045 translate y*4.5 Matte(srgb <.34,.27,.2>) }
 sphere { 0,1 scale <2.05,1.9,2.3> translate y*8.6 texture { pigment { gradient x color_map { [.4 srgb <.22,.18,.15>][.6 srgb <.33,.27,.22>] } scale .22 } normal { gradient x .6 scale .22 } } }
 union { cylinder { <0,0,.6>,<0,0,-1.1>,.2 }
  #for (K,0,3) union { box { <-.09,0,-.06>,<.09,7.0,.06> }
   #for (J,0,21) box { <-.05,1.2+J*.27,-.02>,<1.25,1.245+J*.27,.02> } #end #for (M,0,3) box { <.28+M*.32,1.15,-.025>,<.315+M*.32,6.95,.025> } #end
   mesh { #for (J,0,11) #local a=1.3+J*.45; triangle { <.1,a,-.05>,<1.0,a,-.05-.08*sin(J)>,<.1,a+.45,-.05> } triangle { <1.0,a,-.05-.08*sin(J)>,<1.0,a+.45,-.05-.08*sin(J+1)>,<.1,a+.45,-.05> } #end texture { pigment { srgb <.80,.76,.66> } finish { diffuse .65,.3 } } }
   rotate z*(K*90+27) translate z*-1.0 } #end
  rotate x*6 translate <0,8.7,-2.1> Wood(srgb <.34,.27,.2>,srgb <.24,.19,.14>,.5) }
 #for (S,-1,1,2) cylinder { <S*1.2,8.2,2>,<S*.4,1.2,6>,.09 Matte(srgb <.3,.25,.19>) } #end
 rotate y*24 translate <0,.5,0> }
// path fence and a shed
#for (I,0,11) cylinder { <-11+I*1.5,-1.2,-8+I*.5>,<-11+I*1.5+R(-.05,.05),.55+R(-.05,.05)+I*.03,-8+I*.5>,.06 Matte(srgb <.35,.29,.23>) } #end
#for (H,0,1) sphere_sweep { linear_spline 2,<-11,-.1+H*.45,-8>,.035,<5.5,.25+H*.45,-2.5>,.035 Matte(srgb <.38,.32,.25>) } #end
union { box { <6,-.5,3>,<9.5,1.8,6> Wood(srgb <.33,.28,.23>,srgb <.22,.19,.15>,.8) } prism { linear_sweep linear_spline 2.8,6.2,4,<5.8,1.75>,<9.7,1.75>,<7.75,3.1>,<5.8,1.75> rotate x*-90 scale <1,1,-1> Matte(srgb <.28,.22,.19>) } }
// gulls over the hill
#for (I,1,5) union { #for (S,-1,1,2) triangle { 0,<S*.35,.16,.08>,<S*.1,.03,.14> } triangle { <S*.35,.16,.08>,<S*.1,.03,.14>,<S*.75,.05,.1> } #end Matte(srgb <.25,.25,.25>) rotate <R(-30,0),R(-50,50),R(-25,25)> translate <R(-7,5),R(11,16),R(0,8)> } #end
